"""A box narrow enough to lie between the wheels may reach further, as long as the inner corner of a steered wheel does
not come across it.
"""

from math import cos, radians, sin

from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity


def quantity(inner_face: float, diameter: float, steer: float, box_width: float) -> float:
    turn = radians(steer)
    return inner_face * cos(turn) - diameter / 2.0 * sin(turn) - box_width / 2.0


RULE = Rule(
    question="Does the box lie between the steered wheels?",
    needs=("wheel.inner_face", "wheel.outer_diameter", "truck.steer", "enclosure.width"),
    quantity=quantity,
    measures="side of the box to the inner corner of the wheel at full steer",
    formula="y = y_in·cos δ − R·sin δ − w/2",
    unit="mm",
    hard=AtLeast(Bound("box_sweep.box_lies_between_the_wheels.least", 5.0, "common practice, no source")),
    severity=Severity.DAMAGE,
    excused_by="box_sweep.box_ends_before_the_wheels",
    remedy_hint="spacers inside the wheels, or a box that ends before them",
    examples=(
        Example(
            "100 mm box between wheels 160 mm apart",
            {
                "wheel.inner_face": (79.0, 80.0, 81.0),
                "wheel.outer_diameter": 90.0,
                "truck.steer": (12.0, 15.0, 17.0),
                "enclosure.width": 100.0,
            },
            "holds",
            10.627,
        ),
        Example(
            "140 mm box between wheels 160 mm apart",
            {
                "wheel.inner_face": (79.0, 80.0, 81.0),
                "wheel.outer_diameter": 90.0,
                "truck.steer": (12.0, 15.0, 17.0),
                "enclosure.width": 140.0,
            },
            "fails",
            -9.373,
            two_numbers="140 is less than 160: two widths say yes",
        ),
        Example(
            "no steer: exactly on the limit",
            {
                "wheel.inner_face": 80.0,
                "wheel.outer_diameter": 90.0,
                "truck.steer": 0.0,
                "enclosure.width": 150.0,
            },
            "holds",
            0.0,
        ),
        Example(
            "steer unread",
            {"wheel.inner_face": 80.0, "wheel.outer_diameter": 90.0, "enclosure.width": 150.0},
            "undecided",
        ),
    ),
)
