"""In a thread that is shallower than the screw's diameter and half a millimetre, no screw of that size can both hold
and stay clear of the winding, whatever its length.
"""

from fitdb.formulas.motor_faces import thread_diameter
from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity


def quantity(thread_depth: float, thread: str) -> float:
    return thread_depth - thread_diameter(thread)


RULE = Rule(
    question="Is the thread in the motor's face deep enough for any screw?",
    needs=("motor.face_thread_depth", "motor.thread"),
    quantity=quantity,
    measures="depth of the thread less its diameter",
    formula="depth − d",
    unit="mm",
    hard=AtLeast(Bound("motor_screws.thread_is_deep_enough.least", 0.5, "common practice, no source")),
    severity=Severity.DAMAGE,
    remedy_hint="a motor with a thicker face; nothing else helps",
    examples=(
        Example("6 mm of M4", {"motor.face_thread_depth": (5.9, 6.0, 6.1), "motor.thread": "m4"}, "holds", 1.5),
        Example(
            "4.3 mm of M4",
            {"motor.face_thread_depth": 4.3, "motor.thread": "m4"},
            "fails",
            -0.2,
            two_numbers="4.3 is more than 4: comparing two numbers says yes",
        ),
        Example("exactly on the limit", {"motor.face_thread_depth": 4.5, "motor.thread": "m4"}, "holds", 0.0),
        Example("depth unread", {"motor.thread": "m4"}, "undecided"),
    ),
)
