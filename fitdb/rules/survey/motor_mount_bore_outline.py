"""Nobody drew the clamp's bore: it stands as undrawn, and its form and sizes speak for it."""

from fitdb.model.reading import Outline
from fitdb.model.rule import SurveyLine
from fitdb.model.source import Source

UNDRAWN = Outline((), (), 0.0, Source("undrawn", "default", "nobody drew it", "common practice, no source"))


def quantity() -> object:
    return UNDRAWN


LINE = SurveyLine(
    target="motor_mount.bore_outline",
    needs=(),
    quantity=quantity,  # type: ignore[arg-type]
    measures="the drawn bore of the clamp, or none",
    formula="undrawn",
    unit="mm",
    source="common practice, no source",
)
