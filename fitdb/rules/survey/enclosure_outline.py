"""Nobody drew the holes in the rim, or the plan of the cavity: they stand as undrawn, and the sizes speak."""

from fitdb.model.reading import Outline
from fitdb.model.rule import SurveyLine
from fitdb.model.source import Source

UNDRAWN = Outline((), (), 0.0, Source("undrawn", "default", "nobody drew it", "common practice, no source"))


def quantity() -> object:
    return UNDRAWN


LINE = SurveyLine(
    target="enclosure.outline",
    needs=(),
    quantity=quantity,  # type: ignore[arg-type]
    measures="the drawn holes in the rim or plan of the cavity, or none",
    formula="undrawn",
    unit="mm",
    source="common practice, no source",
)
