"""Nobody drew the lugs: they stand as undrawn, and their sizes speak for them."""

from fitdb.model.reading import Outline
from fitdb.model.rule import SurveyLine
from fitdb.model.source import Source

UNDRAWN = Outline((), (), 0.0, Source("undrawn", "default", "nobody drew it", "common practice, no source"))


def quantity() -> object:
    return UNDRAWN


LINE = SurveyLine(
    target="pulley.outline",
    needs=(),
    quantity=quantity,  # type: ignore[arg-type]
    measures="the drawn lugs, or none",
    formula="undrawn",
    unit="mm",
    source="common practice, no source",
)
