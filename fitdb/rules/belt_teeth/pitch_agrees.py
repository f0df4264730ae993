"""The belt's teeth have to be as far apart as the pulley's. A wrong pitch climbs out of the grooves within a turn and
strips the belt in minutes. Measure over ten teeth: 50.0 mm against 30.0 mm cannot be mistaken.
"""

from fitdb.model.rule import Between, Bound, Example, Published, Rule, Severity


def quantity(drive_side: float, driven_side: float) -> float:
    return drive_side - driven_side


RULE = Rule(
    question="Do both have the same tooth pitch?",
    needs=("drive_side.tooth_pitch", "driven_side.tooth_pitch"),
    quantity=quantity,
    measures="tooth pitch of one part less that of the other",
    formula="Δp = p_1 − p_2",
    unit="mm",
    hard=Between(
        Bound("belt_teeth.pitch_agrees.least", -0.02, "common practice, no source"),
        Bound("belt_teeth.pitch_agrees.most", 0.02, "common practice, no source"),
    ),
    severity=Severity.DAMAGE,
    published=(Published("curvilinear pitches are 3, 5, 8 and 14 mm and nothing between", "ISO 13050"),),
    remedy_hint="replace one side; nothing goes between",
    examples=(
        Example(
            "5 mm belt, 5 mm pulley",
            {"drive_side.tooth_pitch": 5.0, "driven_side.tooth_pitch": (4.99, 5.0, 5.01)},
            "holds",
            0.02,
        ),
        Example(
            "24 teeth of 3 mm look like 15 of 5 mm",
            {"drive_side.tooth_pitch": 3.0, "driven_side.tooth_pitch": 5.0},
            "fails",
            -1.98,
            two_numbers="22.9 and 23.9 mm pitch diameter: comparing diameters within 1 mm says yes",
        ),
        Example(
            "5.08 mm inch pitch against 5 mm",
            {"drive_side.tooth_pitch": 5.08, "driven_side.tooth_pitch": 5.0},
            "fails",
            -0.06,
        ),
        Example("exactly on the limit", {"drive_side.tooth_pitch": 5.02, "driven_side.tooth_pitch": 5.0}, "holds", 0.0),
        Example("pitch of one side unread", {"drive_side.tooth_pitch": 5.0}, "undecided"),
    ),
)
