"""The screws of the motor stand on a circle, and the slots of the mount lie on one. Both are measured across the
middle: neighbouring holes of four on a 44 mm circle are only 31.1 mm apart, and that is often taken for the circle.
"""

from fitdb.model.rule import Between, Bound, Example, Published, Rule, Severity


def quantity(slot_circle: float, face_circle: float) -> float:
    return slot_circle - face_circle


RULE = Rule(
    question="Do the slots lie on the circle of the motor's screws?",
    needs=("motor_mount.slot_circle", "motor.face_circle"),
    quantity=quantity,
    measures="circle of the slots less circle of the threaded holes",
    formula="Δ = Ø_slots − Ø_face",
    unit="mm",
    hard=Between(
        Bound("motor_face.circles_agree.least", -0.3, "common practice, no source"),
        Bound("motor_face.circles_agree.most", 0.3, "common practice, no source"),
    ),
    severity=Severity.DAMAGE,
    published=(
        Published("an M4 screw in a 4.5 mm hole over a thread lets the circles differ by 0.5 mm", "ASME Y14.5-2009"),
    ),
    excused_by="motor_face.drawn_holes_line_up",
    remedy_hint="a face plate from one circle to the other; it takes 4 to 6 mm of shaft",
    examples=(
        Example(
            "44 mm on 44 mm", {"motor_mount.slot_circle": (43.9, 44.0, 44.1), "motor.face_circle": 44.0}, "holds", 0.3
        ),
        Example("30 mm on 44 mm", {"motor_mount.slot_circle": 30.0, "motor.face_circle": 44.0}, "fails", -13.7),
        Example(
            "31.1 mm between neighbouring holes, taken for the circle",
            {"motor_mount.slot_circle": 31.1, "motor.face_circle": 44.0},
            "fails",
            -12.6,
            two_numbers="31.1 mm from hole to hole on both parts: comparing those two numbers says yes",
        ),
        Example("exactly on the limit", {"motor_mount.slot_circle": 30.3, "motor.face_circle": 30.0}, "holds", 0.0),
        Example(
            "circle of the mount from a photograph",
            {"motor_mount.slot_circle": (42.7, 44.0, 45.3), "motor.face_circle": 44.0},
            "undecided",
            0.3,
        ),
        Example("circle of the motor unread", {"motor_mount.slot_circle": 44.0}, "undecided"),
    ),
)
