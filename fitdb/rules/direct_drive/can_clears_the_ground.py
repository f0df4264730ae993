"""The can is nearly as large as the wheel beside it. When the wheel wears down, the can comes down with it, and a can
that strikes the ground stops the wheel.
"""

from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity


def quantity(effective_radius: float, can_diameter: float) -> float:
    return effective_radius - can_diameter / 2.0


RULE = Rule(
    question="Does the can stay clear of the ground?",
    needs=("wheel.effective_radius", "direct_drive.can_diameter"),
    quantity=quantity,
    measures="radius of the wheel as worn and sunk, less the radius of the can",
    formula="g = R_eff − d_can/2",
    unit="mm",
    hard=AtLeast(Bound("direct_drive.can_clears_the_ground.least", 8.0, "common practice, no source")),
    severity=Severity.INJURY,
    caution="A can that touches the ground stops the wheel. Look at it again when the wheels have worn by 2 mm.",
    remedy_hint="larger wheels",
    examples=(
        Example(
            "97 mm wheel as new, can of 78 mm",
            {"wheel.effective_radius": (47.9, 48.2, 48.5), "direct_drive.can_diameter": 78.0},
            "holds",
            1.2,
        ),
        Example(
            "exactly on the limit", {"wheel.effective_radius": 47.0, "direct_drive.can_diameter": 78.0}, "holds", 0.0
        ),
        Example(
            "90 mm wheel, can of 80 mm",
            {"wheel.effective_radius": (44.4, 44.7, 45.0), "direct_drive.can_diameter": 80.0},
            "fails",
            -3.3,
            two_numbers="80 is less than 90: comparing two diameters says yes",
        ),
        Example(
            "wear of the wheel unread",
            {"wheel.effective_radius": (44.0, 48.0, 48.5), "direct_drive.can_diameter": 78.0},
            "undecided",
            1.0,
        ),
        Example("can unread", {"wheel.effective_radius": 47.0}, "undecided"),
    ),
)
