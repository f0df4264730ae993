"""Small pulleys have little metal between their teeth and a large bore, and a keyway takes the most of it where it is
thinnest. A 12-tooth pulley on 8 mm with a keyway is left with 1.5 mm, and cracks there.
"""

from fitdb.formulas.shaft_locks import root_wall
from fitdb.model.rule import AtLeast, Bound, Example, Published, Rule, Severity


def quantity(teeth: int, pitch: float, form: str, bore: float, lock: str, keyway_width: float) -> float:
    return root_wall(teeth, pitch, form, bore, lock, keyway_width)


RULE = Rule(
    question="Is enough metal left between the teeth and the bore?",
    needs=(
        "drive_pulley.teeth",
        "drive_pulley.tooth_pitch",
        "drive_pulley.tooth_form",
        "drive_pulley.bore_diameter",
        "drive_pulley.lock",
        "drive_pulley.keyway_width",
    ),
    quantity=quantity,
    measures="metal between the tooth roots and the bottom of the keyway, or the bore where none is cut",
    formula="OD/2 − h − (b/2 + t₂), OD = z·p/π − 2a",
    unit="mm",
    hard=AtLeast(Bound("pulley_bore.root_wall_holds.least", 2.0, "common practice, no source")),
    severity=Severity.DAMAGE,
    published=(
        Published("5 mm curvilinear form: a 0.5715, tooth 2.08 mm", "ISO 13050"),
        Published("keyway in the hub: 1.0, 1.4, 1.8 mm deep for keys of 2, 3, 4 mm, up to 0.1 mm deeper", "DIN 6885-1"),
    ),
    caution="Where only 1.5 mm are left: steel, pressed or bonded, and no keyway.",
    remedy_hint="a pulley with more teeth; then check the belt and the ground clearance again",
    examples=(
        Example(
            "14 teeth, 8 mm bore, 3 mm key",
            {
                "drive_pulley.teeth": 14,
                "drive_pulley.tooth_pitch": 5.0,
                "drive_pulley.tooth_form": "curvilinear_5",
                "drive_pulley.bore_diameter": (8.0, 8.0, 8.02),
                "drive_pulley.lock": "key",
                "drive_pulley.keyway_width": 3.0,
            },
            "holds",
            1.09,
        ),
        Example(
            "12 teeth bored out to 10 mm with a keyway",
            {
                "drive_pulley.teeth": 12,
                "drive_pulley.tooth_pitch": 5.0,
                "drive_pulley.tooth_form": "curvilinear_5",
                "drive_pulley.bore_diameter": 10.0,
                "drive_pulley.lock": "key",
                "drive_pulley.keyway_width": 3.0,
            },
            "fails",
            -1.5,
            two_numbers="18 mm outside and a 10 mm bore: comparing leaves 4 mm a side and says yes",
        ),
        Example(
            "12 teeth, 8 mm bore, set screws: no keyway to weaken it",
            {
                "drive_pulley.teeth": 12,
                "drive_pulley.tooth_pitch": 5.0,
                "drive_pulley.tooth_form": "curvilinear_5",
                "drive_pulley.bore_diameter": 8.0,
                "drive_pulley.lock": "set_screw",
                "drive_pulley.keyway_width": (2.0, 3.0, 4.0),
            },
            "holds",
            0.9,
        ),
        Example(
            "exactly on the limit (pitch chosen for 20 mm pitch diameter)",
            {
                "drive_pulley.teeth": 20,
                "drive_pulley.tooth_pitch": 3.141592653589793,
                "drive_pulley.tooth_form": "curvilinear_5",
                "drive_pulley.bore_diameter": 10.697,
                "drive_pulley.lock": "bonded",
                "drive_pulley.keyway_width": 0.0,
            },
            "holds",
            0.0,
        ),
        Example(
            "keyway of unread width",
            {
                "drive_pulley.teeth": 14,
                "drive_pulley.tooth_pitch": 5.0,
                "drive_pulley.tooth_form": "curvilinear_5",
                "drive_pulley.bore_diameter": 8.0,
                "drive_pulley.lock": "key",
            },
            "undecided",
        ),
    ),
)
