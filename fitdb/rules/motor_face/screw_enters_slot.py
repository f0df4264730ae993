"""The screw has to go through the slot with a little room, or it cannot be set true and its thread is filed off while
the belt is tensioned.
"""

from fitdb.formulas.motor_faces import thread_diameter
from fitdb.model.rule import AtLeast, Bound, Example, Published, Rule, Severity


def quantity(slot_width: float, thread: str) -> float:
    return slot_width - thread_diameter(thread)


RULE = Rule(
    question="Does the motor's screw go through the slot?",
    needs=("motor_mount.slot_width", "motor.thread"),
    quantity=quantity,
    measures="width of the slot less the screw's diameter",
    formula="s = w_slot − d",
    unit="mm",
    hard=AtLeast(Bound("motor_face.screw_enters_slot.least", 0.1, "common practice, no source")),
    comfort=AtLeast(Bound("motor_face.screw_enters_slot.comfort", 0.2, "ISO 273, fine series, M3")),
    severity=Severity.DAMAGE,
    published=(Published("clearance holes 3.2, 4.3, 5.3 mm (fine) for M3, M4, M5", "ISO 273"),),
    remedy_hint="open the slot; that cannot be undone",
    examples=(
        Example(
            "M4 in a 4.3 mm slot", {"motor_mount.slot_width": (4.25, 4.3, 4.35), "motor.thread": "m4"}, "holds", 0.2
        ),
        Example(
            "M4 in a 4.05 mm slot",
            {"motor_mount.slot_width": 4.05, "motor.thread": "m4"},
            "fails",
            -0.05,
            two_numbers="4 is less than 4.05: comparing two numbers says yes",
        ),
        Example("M5 in a 4.3 mm slot", {"motor_mount.slot_width": 4.3, "motor.thread": "m5"}, "fails", -0.8),
        Example("exactly on the limit", {"motor_mount.slot_width": 3.1, "motor.thread": "m3"}, "holds", 0.0),
        Example("M4 or M5, not tried", {"motor_mount.slot_width": 4.3, "motor.thread": "m4|m5"}, "undecided"),
        Example("thread unread", {"motor_mount.slot_width": 4.3}, "undecided"),
    ),
)
