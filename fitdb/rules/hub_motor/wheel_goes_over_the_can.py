"""A wheel with bearings has a hole for an axle, not for a motor. On a hub motor only a sleeve goes, and whoever changes
to other wheels has to change the motors with them.
"""

from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity


def quantity(wheel_hole: float, can_diameter: float) -> float:
    return wheel_hole - can_diameter


RULE = Rule(
    question="Is the wheel made to go over the can of a hub motor?",
    needs=("wheel.seat_diameter", "hub_motor.can_diameter"),
    quantity=quantity,
    measures="hole through the wheel less the diameter of the can",
    formula="Δ = d_hole − d_can",
    unit="mm",
    hard=AtLeast(Bound("hub_motor.wheel_goes_over_the_can.least", 0.0, "common practice, no source")),
    severity=Severity.DAMAGE,
    remedy_hint="a sleeve for this can instead of a wheel",
    examples=(
        Example(
            "a tread ring of 80.5 mm over a can of 80 mm",
            {"wheel.seat_diameter": 80.5, "hub_motor.can_diameter": (79.9, 80.0, 80.1)},
            "holds",
            0.5,
        ),
        Example("exactly on the limit", {"wheel.seat_diameter": 80.0, "hub_motor.can_diameter": 80.0}, "holds", 0.0),
        Example(
            "a 97 mm wheel for 22 mm bearings",
            {"wheel.seat_diameter": (21.97, 22.0, 22.0), "hub_motor.can_diameter": (79.9, 80.0, 80.1)},
            "fails",
            -58.0,
            two_numbers="the wheel of 97 mm is larger than the can of 80: comparing two diameters says yes",
        ),
        Example("can unread", {"wheel.seat_diameter": 22.0}, "undecided"),
    ),
)
