"""The drawing that every rule with a number has: its range on a scale, with the limits."""

from __future__ import annotations

from fitdb.drawings.shapes import Drawing, Label, Line
from fitdb.model.finding import Finding
from fitdb.model.rule import AtLeast, AtMost, Between


def scale_drawing(finding: Finding) -> Drawing:
    """The quantity's low, middle and high value beside the hard limit and the comfort limit."""
    rule = finding.rule
    if finding.value is None:
        words = " / ".join(finding.words) or finding.state.replace("_", " ")
        return Drawing(
            rule.question, f"{rule.question} {words}", "face", (Label(0, 0, words), Label(0, 1, rule.measures))
        )
    value = finding.value
    bounds = [(bound, "limit") for bound in _bounds(rule.hard)] + [
        (bound, "gap") for bound in (_bounds(rule.comfort) if rule.comfort else [])
    ]
    numbers = [value.low, value.high, *[bound for bound, _ in bounds]]
    reach = max(max(numbers) - min(numbers), 1e-3) * 0.25
    left, right = min(numbers) - reach, max(numbers) + reach
    shapes: list[Line | Label] = [Line(((left, 0.0), (right, 0.0)), "note")]
    for bound, kind in bounds:
        shapes.append(Line(((bound, -0.7), (bound, 0.7)), kind))
        name = "limit" if kind == "limit" else "comfort"
        shapes.append(
            Label(bound, 0.95 if kind == "limit" else -1.1, f"{name} {bound:g} {rule.unit}".strip(), "middle")
        )
    kind = "clash" if finding.state == "fails" else "range"
    shapes.append(
        Line(((value.low, -0.18), (value.high, -0.18), (value.high, 0.18), (value.low, 0.18)), kind, closed=True)
    )
    shapes.append(Line(((value.nominal, -0.4), (value.nominal, 0.4)), kind))
    shapes.append(Label(value.nominal, 0.5, f"{value.nominal:.4g} {rule.unit}".strip(), "middle"))
    told = f"{rule.measures} is {value.nominal:.4g} ({value.low:.4g} to {value.high:.4g}) {rule.unit}: {finding.state}."
    return Drawing(rule.question, told, "scale", tuple(shapes), rule.unit)


def _bounds(limit: object) -> list[float]:
    if isinstance(limit, AtLeast):
        return [limit.low.value]
    if isinstance(limit, AtMost):
        return [] if limit.high.key.endswith(".none") else [limit.high.value]  # a caution only: no line to draw
    if isinstance(limit, Between):
        return [limit.low.value, limit.high.value]
    return []
