"""Nobody drew the inserts: the pattern stands as undrawn, without a hole."""

from fitdb.model.reading import Outline
from fitdb.model.rule import SurveyLine
from fitdb.model.source import Source

UNDRAWN = Outline((), (), 0.0, Source("undrawn", "default", "nobody drew it", "common practice, no source"))


def quantity() -> object:
    return UNDRAWN


LINE = SurveyLine(
    target="deck.outline",
    needs=(),
    quantity=quantity,  # type: ignore[arg-type]
    measures="the drawn inserts, or none",
    formula="undrawn",
    unit="mm",
    source="common practice, no source",
)
