"""A motor that is screwed on askew drives the belt up one flange, however well the pulleys are lined up. Half a degree
is the most, 0.6 mm over 70 mm of centre distance: bolt the motor down tight before you look.
"""

from fitdb.model.rule import Between, Bound, Example, Rule, Severity


def quantity(angle: float) -> float:
    return angle


RULE = Rule(
    question="Are motor shaft and axle parallel?",
    needs=("belt.line_angle",),
    quantity=quantity,
    measures="angle between motor shaft and axle, seen from above",
    formula="β",
    unit="deg",
    hard=Between(
        Bound("belt_line.axes_are_parallel.least", -0.5, "common practice, no source"),
        Bound("belt_line.axes_are_parallel.most", 0.5, "common practice, no source"),
    ),
    severity=Severity.DAMAGE,
    remedy_hint="even out the motor's seat on the plate, or shim the clamp",
    examples=(
        Example("0.3 degrees", {"belt.line_angle": (0.1, 0.3, 0.5)}, "holds", 0.2),
        Example("0.8 degrees: 1 mm over 70 mm", {"belt.line_angle": 0.8}, "fails", -0.3),
        Example("exactly on the limit", {"belt.line_angle": -0.5}, "holds", 0.0),
        Example("angle unread", {}, "undecided"),
    ),
)
