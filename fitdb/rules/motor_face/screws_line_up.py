"""Holes and slots on one circle still need the same spacing: of six threaded holes over four slots only two line up.
Two screws hold a small motor at best; four are what the torque of a wheel asks for.
"""

from fitdb.formulas.motor_faces import screws_in_line
from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity, Shape


def quantity(face_holes: int, slots: int, face_spacing: str, slot_spacing: str) -> float:
    return float(screws_in_line(face_holes, slots, face_spacing, slot_spacing))


RULE = Rule(
    question="Can the motor be held by at least two screws?",
    needs=("motor.hole_count", "motor_mount.hole_count", "motor.hole_spacing", "motor_mount.hole_spacing"),
    quantity=quantity,
    measures="threaded holes that stand over a slot, both evenly spaced",
    formula="gcd(n_face, n_slots)",
    unit="",
    hard=AtLeast(Bound("motor_face.screws_line_up.least", 2, "common practice, no source")),
    comfort=AtLeast(Bound("motor_face.screws_line_up.comfort", 4, "common practice, no source")),
    severity=Severity.DAMAGE,
    shape=Shape.STEPPED,
    excused_by="motor_face.drawn_holes_line_up",
    remedy_hint="a face plate, or draw both patterns: uneven ones are compared hole by hole",
    examples=(
        Example(
            "four holes, four slots",
            {
                "motor.hole_count": 4,
                "motor_mount.hole_count": 4,
                "motor.hole_spacing": "even",
                "motor_mount.hole_spacing": "even",
            },
            "holds",
            2,
        ),
        Example(
            "six holes over four slots: exactly on the limit",
            {
                "motor.hole_count": 6,
                "motor_mount.hole_count": 4,
                "motor.hole_spacing": "even",
                "motor_mount.hole_spacing": "even",
            },
            "holds",
            0,
        ),
        Example(
            "three holes over four slots",
            {
                "motor.hole_count": 3,
                "motor_mount.hole_count": 4,
                "motor.hole_spacing": "even",
                "motor_mount.hole_spacing": "even",
            },
            "fails",
            -1,
            two_numbers="3 holes are no more than 4 slots: comparing two counts says three screws",
        ),
        Example(
            "slots not counted",
            {"motor.hole_count": 4, "motor.hole_spacing": "even", "motor_mount.hole_spacing": "even"},
            "undecided",
        ),
    ),
)
