"""The bore may not be smaller than the shaft: an 8 mm pulley does not go on a 10 mm shaft, and one that is driven on
with a hammer ruins the motor's bearings. A bush makes a large bore smaller, never a small one larger.
"""

from fitdb.model.rule import AtLeast, Bound, Example, Published, Rule, Severity


def quantity(bore: float, shaft: float) -> float:
    return bore - shaft


RULE = Rule(
    question="Does the bore go on the shaft?",
    needs=("drive_pulley.bore_diameter", "motor.shaft_diameter"),
    quantity=quantity,
    measures="bore diameter less shaft diameter",
    formula="Δ = Ø_bore − Ø_shaft",
    unit="mm",
    hard=AtLeast(Bound("pulley_bore.bore_takes_shaft.least", 0.0, "common practice, no source")),
    severity=Severity.DAMAGE,
    published=(Published("an 8 mm hole H7 on an 8 mm shaft h6 has 0 to 0.024 mm of play", "ISO 286-2"),),
    remedy_hint="a pulley with the right bore; boring out needs metal over the keyway",
    examples=(
        Example(
            "8 mm bore on an 8 mm shaft h6",
            {"drive_pulley.bore_diameter": (8.0, 8.0, 8.02), "motor.shaft_diameter": (7.991, 8.0, 8.0)},
            "holds",
            0.0,
        ),
        Example(
            "8 mm bore on a 10 mm shaft", {"drive_pulley.bore_diameter": 8.0, "motor.shaft_diameter": 10.0}, "fails", -2
        ),
        Example(
            "5/16 in bore on an 8 mm shaft",
            {"drive_pulley.bore_diameter": (7.9375, 7.9375, 7.95), "motor.shaft_diameter": (7.991, 8.0, 8.0)},
            "fails",
            -0.06,
            two_numbers="7.94 and 8 agree within a tenth: comparing rounded numbers says yes",
        ),
        Example(
            "both read with a caliper: try it on",
            {"drive_pulley.bore_diameter": (7.97, 8.02, 8.07), "motor.shaft_diameter": (7.95, 8.0, 8.05)},
            "undecided",
            0.02,
        ),
        Example("bore unread", {"motor.shaft_diameter": 8.0}, "undecided"),
    ),
)
