"""Two screws are enough for a can of up to 50 mm. A larger motor twists on two: the screws loosen, the slot is beaten
out and the belt goes slack.
"""

from fitdb.formulas.motor_faces import screws_in_line
from fitdb.model.rule import AtLeast, Bound, Constant, Example, Rule, Severity, Shape


def quantity(
    face_holes: int,
    slots: int,
    face_spacing: str,
    slot_spacing: str,
    can_diameter: float,
    small_can: float,
    screws_small: float,
    screws_large: float,
) -> float:
    """Screws in line less the screws that the can asks for; of uneven patterns the smaller count is taken."""
    even = face_spacing == slot_spacing == "even"
    screws = screws_in_line(face_holes, slots, face_spacing, slot_spacing) if even else min(face_holes, slots)
    return screws - (screws_large if can_diameter > small_can else screws_small)


RULE = Rule(
    question="Are there screws enough for a motor of this size?",
    needs=(
        "motor.hole_count",
        "motor_mount.hole_count",
        "motor.hole_spacing",
        "motor_mount.hole_spacing",
        "motor.can_diameter",
    ),
    quantity=quantity,
    measures="screws in line less the screws that the can asks for: two up to 50 mm, four above",
    formula="n − (4 if Ø_can > 50 mm, else 2)",
    unit="",
    hard=AtLeast(Bound("motor_face.large_can_has_four.least", 0, "common practice, no source")),
    severity=Severity.DAMAGE,
    shape=Shape.STEPPED,
    constants=(
        Constant("small_can", 50.0, "mm", "common practice, no source"),
        Constant("screws_small", 2.0, "1", "common practice, no source"),
        Constant("screws_large", 4.0, "1", "common practice, no source"),
    ),
    remedy_hint="a mount with four slots on this circle",
    examples=(
        Example(
            "63 mm can on four screws: exactly on the limit",
            {
                "motor.hole_count": 4,
                "motor_mount.hole_count": 4,
                "motor.hole_spacing": "even",
                "motor_mount.hole_spacing": "even",
                "motor.can_diameter": 63.0,
            },
            "holds",
            0,
        ),
        Example(
            "42 mm can on four screws",
            {
                "motor.hole_count": 4,
                "motor_mount.hole_count": 4,
                "motor.hole_spacing": "even",
                "motor_mount.hole_spacing": "even",
                "motor.can_diameter": (41.5, 42.0, 42.5),
            },
            "holds",
            2,
        ),
        Example(
            "63 mm can on two slots",
            {
                "motor.hole_count": 4,
                "motor_mount.hole_count": 2,
                "motor.hole_spacing": "even",
                "motor_mount.hole_spacing": "even",
                "motor.can_diameter": 63.0,
            },
            "fails",
            -2,
        ),
        Example(
            "can unread",
            {
                "motor.hole_count": 4,
                "motor_mount.hole_count": 2,
                "motor.hole_spacing": "even",
                "motor_mount.hole_spacing": "even",
            },
            "undecided",
        ),
    ),
)
