"""Nobody drew the deck: it stands as undrawn, and is taken as straight-sided at its half width beside the wheels."""

from fitdb.model.reading import Outline
from fitdb.model.rule import SurveyLine
from fitdb.model.source import Source

UNDRAWN = Outline((), (), 0.0, Source("undrawn", "default", "nobody drew it", "common practice, no source"))


def quantity() -> object:
    return UNDRAWN


LINE = SurveyLine(
    target="deck.plan_outline",
    needs=(),
    quantity=quantity,  # type: ignore[arg-type]
    measures="the drawn plan of the deck about the axle, or none",
    formula="undrawn",
    unit="mm",
    source="common practice, no source",
)
