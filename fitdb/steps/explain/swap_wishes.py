"""What the rider wishes and what comes of it: as asked, and with the remedies."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from fitdb.model.reading import Number
from fitdb.model.verdict import JointVerdict, SwapVerdict
from fitdb.steps.explain.sentences import Display


def wishes(verdict: SwapVerdict, display: Display) -> list[dict[str, Any]]:
    """What the rider wishes and what comes of it: as asked, and with the changes."""
    wish = next((piece.part for piece in verdict.plan.after if piece.seat == "wish"), None)
    best = next((cured for cured in verdict.cures if cured.moves), None)
    asked, mended = achieved(verdict.joints), achieved(best.joints) if best else {}
    told = []
    for name in dict.fromkeys((*asked, *mended)):
        floor, unit = (asked.get(name) or mended[name])[1:]
        target = wish.readings.get(f"{name}_target") if wish else None
        wished = getattr(target, "nominal", None)
        sizes = {"as_asked": asked.get(name, (None,))[0], "with_remedies": mended.get(name, (None,))[0]}
        told.append(
            {
                "quantity": name,
                "unit": unit,
                "floor": floor,
                "target": wished,
                **sizes,
                "sentence": _wish_told(name, unit, floor, wished, sizes, display),
            }
        )
    return told


def achieved(joints: Iterable[JointVerdict]) -> dict[str, tuple[float, float, str]]:
    """(what is reached, the floor, unit) by wish, the least where several joints tell it."""
    found: dict[str, tuple[float, float, str]] = {}
    for joint in joints:
        for finding in joint.findings:
            for item in finding.inputs:
                floored = item.need.startswith("wish.") and item.attribute.endswith("_floor")
                if floored and finding.value is not None and isinstance(item.reading, Number):
                    name, floor = item.attribute.removesuffix("_floor"), item.reading.nominal
                    reached = (finding.value.nominal + floor, floor, item.unit)
                    found[name] = min(reached, found.get(name, reached))
    return found


def _wish_told(
    name: str, unit: str, floor: float, target: float | None, sizes: dict[str, float | None], display: Display
) -> str:
    def size(value: float) -> str:
        return display.size(value, unit) if unit else f"{value:.3g}"

    wished = f"wished {size(target)}" if target is not None else f"at least {size(floor)}"
    parts = [f"as asked {size(sizes['as_asked'])}"] if sizes["as_asked"] is not None else []
    parts += [f"with the changes {size(sizes['with_remedies'])}"] if sizes["with_remedies"] is not None else []
    return f"{name.replace('_', ' ').capitalize()}: {wished}; {', '.join(parts)}."
