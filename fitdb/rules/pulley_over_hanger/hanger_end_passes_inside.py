"""The hollow of the pulley turns around the end of the hanger. With less than a millimetre and a half on each side
they touch in turns.
"""

from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity


def quantity(inner_clear_diameter: float, end_diameter: float) -> float:
    return inner_clear_diameter - end_diameter


RULE = Rule(
    question="Is there air between the pulley's hollow and the hanger's end?",
    needs=("pulley.inner_clear_diameter", "hanger.end_diameter"),
    quantity=quantity,
    measures="clear diameter of the pulley less diameter of the hanger's end",
    formula="D_clear − D_end",
    unit="mm",
    hard=AtLeast(Bound("pulley_over_hanger.hanger_end_passes_inside.least", 3.0, "common practice, no source")),
    severity=Severity.DAMAGE,
    examples=(
        Example("34 mm over 22 mm", {"pulley.inner_clear_diameter": 34.0, "hanger.end_diameter": 22.0}, "holds", 9.0),
        Example(
            "exactly on the limit", {"pulley.inner_clear_diameter": 25.0, "hanger.end_diameter": 22.0}, "holds", 0.0
        ),
        Example(
            "26 mm over 24 mm",
            {"pulley.inner_clear_diameter": 26.0, "hanger.end_diameter": 24.0},
            "fails",
            -1.0,
            two_numbers="24 goes into 26: comparing two numbers says yes",
        ),
        Example("hanger unread", {"pulley.inner_clear_diameter": 34.0}, "undecided"),
    ),
)
