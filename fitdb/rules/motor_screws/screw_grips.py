"""A screw that only catches two turns pulls its thread out of the soft metal of the motor's face. It should go in by
its own diameter, better by a quarter more.
"""

from fitdb.formulas.motor_faces import thread_diameter
from fitdb.model.rule import AtLeast, Bound, Example, Published, Rule, Severity


def quantity(length: float, plate_thickness: float, washer: float, thread: str) -> float:
    return (length - plate_thickness - washer) / thread_diameter(thread)


RULE = Rule(
    question="Does the screw go far enough into the motor's face?",
    needs=(
        "motor_screw.length",
        "motor_mount.plate_thickness",
        "motor_screw.washer_thickness",
        "motor_screw.thread",
    ),
    quantity=quantity,
    measures="screw beyond plate and washer, in diameters of the screw",
    formula="(L − t_plate − t_washer)/d",
    unit="",
    hard=AtLeast(Bound("motor_screws.screw_grips.least", 1.0, "common practice, no source")),
    comfort=AtLeast(Bound("motor_screws.screw_grips.comfort", 1.25, "common practice, no source")),
    severity=Severity.DAMAGE,
    published=(
        Published("about 1 diameter of engagement where both are steel, more in aluminium", "an engineering page"),
        Published("length at which the screw breaks before the thread shears", "FED-STD-H28/2B"),
    ),
    remedy_hint="the next longer screw, if the thread is deep enough for it",
    examples=(
        Example(
            "M4 × 14 through an 8 mm plate and a 0.8 mm washer",
            {
                "motor_screw.length": (13.6, 14.0, 14.4),
                "motor_mount.plate_thickness": 8.0,
                "motor_screw.washer_thickness": 0.8,
                "motor_screw.thread": "m4",
            },
            "holds",
            0.3,
        ),
        Example(
            "M4 × 12 through the same",
            {
                "motor_screw.length": 12.0,
                "motor_mount.plate_thickness": 8.0,
                "motor_screw.washer_thickness": 0.8,
                "motor_screw.thread": "m4",
            },
            "fails",
            -0.2,
            two_numbers="12 is more than 8: comparing screw and plate says yes",
        ),
        Example(
            "exactly on the limit",
            {
                "motor_screw.length": 12.0,
                "motor_mount.plate_thickness": 8.0,
                "motor_screw.washer_thickness": 0.0,
                "motor_screw.thread": "m4",
            },
            "holds",
            0.0,
        ),
        Example(
            "plate unread",
            {"motor_screw.length": 12.0, "motor_screw.washer_thickness": 0.8, "motor_screw.thread": "m4"},
            "undecided",
        ),
    ),
)
