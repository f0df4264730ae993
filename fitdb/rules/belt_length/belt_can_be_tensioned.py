"""The belt has to come tight before the motor reaches the end of its slot, with a little travel left for a belt that
has settled. A belt that never comes tight jumps teeth, and it does so under braking.
"""

from fitdb.model.rule import AtLeast, Bound, Example, Published, Rule, Severity


def quantity(centre: float, centre_max: float) -> float:
    return centre_max - centre


RULE = Rule(
    question="Does the belt come tight within the slot?",
    needs=("belt.taut_centre_distance", "motor_mount.centre_max"),
    quantity=quantity,
    measures="travel left in the slot once the belt is taut",
    formula="C_max − C",
    unit="mm",
    hard=AtLeast(Bound("belt_length.belt_can_be_tensioned.least", 1.0, "common practice, no source")),
    severity=Severity.INJURY,
    published=(
        Published(
            "centre distance best between 0.2 and 0.7 times p·(z1 + z2)", "a CAD handbook's chapter on toothed belts"
        ),
    ),
    caution=(
        "On this build the motor is the brake. A slack belt skips under braking and the brake is gone: learn to "
        "stop by "
        "foot, and leave distance."
    ),
    remedy_hint="the next shorter belt, or an idler; buy two neighbouring lengths",
    examples=(
        Example(
            "67.7 mm in a slot up to 71 mm",
            {"belt.taut_centre_distance": (67.4, 67.72, 68.0), "motor_mount.centre_max": (70.5, 71.0, 71.5)},
            "holds",
            2.28,
        ),
        Example(
            "70.5 mm in a slot up to 71 mm",
            {"belt.taut_centre_distance": 70.5, "motor_mount.centre_max": 71.0},
            "fails",
            -0.5,
            two_numbers="70.5 is less than 71: comparing with the end of the slot says yes",
        ),
        Example(
            "exactly on the limit",
            {"belt.taut_centre_distance": 70.0, "motor_mount.centre_max": 71.0},
            "holds",
            0.0,
        ),
        Example(
            "slot read with a ruler, a millimetre to spare",
            {"belt.taut_centre_distance": 69.5, "motor_mount.centre_max": (70.0, 71.0, 72.0)},
            "undecided",
            0.5,
        ),
        Example("slot unread", {"belt.taut_centre_distance": 67.7}, "undecided"),
    ),
)
