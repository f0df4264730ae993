"""The turning wheel must not touch the mount or its clamp screws. Two millimetres are little: the wheel wobbles on its
bearings, and its urethane bulges under load.
"""

from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity


def quantity(inner_face: float, hanger_width: float, inset: float) -> float:
    return inner_face - (hanger_width / 2.0 - inset)


RULE = Rule(
    question="Does the wheel's inner face clear the motor mount?",
    needs=("wheel.inner_face", "hanger.hanger_width", "motor_mount.outer_face_inset"),
    quantity=quantity,
    measures="wheel's inner face less the outer face of the mount, along the axle",
    formula="g = y_in − (W/2 − inset)",
    unit="mm",
    hard=AtLeast(Bound("wheel_inside.wheel_clears_the_mount.least", 2.0, "common practice, no source")),
    severity=Severity.DAMAGE,
    remedy_hint="a longer spacer inboard of the wheel, if the axle is long enough",
    examples=(
        Example(
            "wheel from 92 mm on, mount 3 mm inside the shoulder of a 180 mm hanger",
            {"wheel.inner_face": (91.0, 92.0, 93.0), "hanger.hanger_width": 180.0, "motor_mount.outer_face_inset": 3.0},
            "holds",
            3.0,
        ),
        Example(
            "a core with 8 mm of inward offset",
            {"wheel.inner_face": 84.0, "hanger.hanger_width": 180.0, "motor_mount.outer_face_inset": 5.0},
            "fails",
            -3.0,
            two_numbers="both wheels are 52 mm wide: comparing widths says the new one fits where the old one ran",
        ),
        Example(
            "exactly on the limit",
            {"wheel.inner_face": 92.0, "hanger.hanger_width": 180.0, "motor_mount.outer_face_inset": 0.0},
            "holds",
            0.0,
        ),
        Example("place of the mount unread", {"wheel.inner_face": 92.0, "hanger.hanger_width": 180.0}, "undecided"),
    ),
)
