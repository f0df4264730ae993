"""Nobody drew the holes: the pattern stands as undrawn, without a hole, and the sizes of the grid speak for it."""

from fitdb.model.reading import Outline
from fitdb.model.rule import SurveyLine
from fitdb.model.source import Source

UNDRAWN = Outline((), (), 0.0, Source("undrawn", "default", "nobody drew it", "common practice, no source"))


def quantity() -> object:
    return UNDRAWN


LINE = SurveyLine(
    target="deck_side.outline",
    needs=(),
    quantity=quantity,  # type: ignore[arg-type]
    measures="the drawn hole pattern, or none",
    formula="undrawn",
    unit="mm",
    source="common practice, no source",
)
