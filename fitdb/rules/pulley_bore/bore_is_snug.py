"""A pulley that is loose on its shaft is pushed off the middle by its own screw, runs out of true, and beats its keyway
wide. Three hundredths of a millimetre are the most; you feel more than that as a wobble.
"""

from fitdb.model.rule import AtMost, Bound, Example, Published, Rule, Severity


def quantity(bore: float, shaft: float) -> float:
    return bore - shaft


RULE = Rule(
    question="Is the bore snug on the shaft?",
    needs=("drive_pulley.bore_diameter", "motor.shaft_diameter"),
    quantity=quantity,
    measures="bore diameter less shaft diameter",
    formula="Δ = Ø_bore − Ø_shaft",
    unit="mm",
    hard=AtMost(Bound("pulley_bore.bore_is_snug.most", 0.03, "common practice, no source")),
    severity=Severity.DAMAGE,
    published=(Published("an 8 mm hole H7 on an 8 mm shaft h6 has 0 to 0.024 mm of play", "ISO 286-2"),),
    remedy_hint="a bush from the larger bore to the shaft; retaining compound bridges a tenth",
    examples=(
        Example(
            "8 mm bore on an 8 mm shaft h6",
            {"drive_pulley.bore_diameter": (8.0, 8.0, 8.02), "motor.shaft_diameter": (7.991, 8.0, 8.0)},
            "holds",
            0.03,
        ),
        Example(
            "10 mm bore on an 8 mm shaft",
            {"drive_pulley.bore_diameter": 10.0, "motor.shaft_diameter": 8.0},
            "fails",
            -1.97,
            two_numbers="8 is less than 10: comparing two numbers says it goes on",
        ),
        Example(
            "exactly on the limit", {"drive_pulley.bore_diameter": 8.03, "motor.shaft_diameter": 8.0}, "holds", 0.0
        ),
        Example(
            "8 mm bore on a shaft that may be 5/16 in",
            {"drive_pulley.bore_diameter": (8.0, 8.0, 8.02), "motor.shaft_diameter": (7.93, 7.98, 8.0)},
            "undecided",
            0.01,
        ),
        Example("shaft unread", {"drive_pulley.bore_diameter": 8.0}, "undecided"),
    ),
)
