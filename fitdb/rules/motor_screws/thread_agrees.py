"""An M4 screw turns in an M5 hole without holding; a number 8 inch screw goes two turns into M4 and strips it."""

from fitdb.model.rule import Example, Published, Rule, Same, Severity


def quantity(screw: str, face: str) -> tuple[str, str]:
    return screw, face


RULE = Rule(
    question="Has the screw the thread of the motor's face?",
    needs=("motor_screw.thread", "motor.thread"),
    quantity=quantity,
    measures="thread of the screw and of the motor's face",
    formula="thread_screw = thread_face",
    unit="",
    hard=Same("motor_screws.thread_agrees", "common practice, no source"),
    severity=Severity.DAMAGE,
    published=(
        Published("metric coarse threads", "ISO 261"),
        Published("unified threads: number 8 is 4.17 mm with 0.79 mm pitch", "ASME B1.1"),
    ),
    remedy_hint="screws with the thread of the motor",
    examples=(
        Example("M4 in M4", {"motor_screw.thread": "m4", "motor.thread": "m4"}, "holds"),
        Example(
            "number 8 in M4",
            {"motor_screw.thread": "unc_8_32", "motor.thread": "m4"},
            "fails",
            two_numbers="4.17 and 4 mm agree within two tenths: comparing diameters says yes",
        ),
        Example("M3 in M4", {"motor_screw.thread": "m3", "motor.thread": "m4"}, "fails"),
        Example("thread of the motor not tried", {"motor_screw.thread": "m4", "motor.thread": "m4|m5"}, "undecided"),
        Example("thread of the motor unread", {"motor_screw.thread": "m4"}, "undecided"),
    ),
)
