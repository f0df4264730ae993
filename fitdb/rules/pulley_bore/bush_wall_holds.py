"""A bush that fills the gap between a large bore and a small shaft needs a millimetre of wall by its nominal sizes; the
fits may take two hundredths of it. Thinner ones crack when they are pressed in and creep round under torque.
"""

from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity


def quantity(outside: float, bore: float) -> float:
    return (outside - bore) / 2.0


RULE = Rule(
    question="Is the wall of the bush thick enough?",
    needs=("bush.shaft_diameter", "bush.bore_diameter"),
    quantity=quantity,
    measures="wall of the reducing bush",
    formula="t = (Ø_outside − Ø_bore)/2",
    unit="mm",
    hard=AtLeast(Bound("pulley_bore.bush_wall_holds.least", 0.98, "common practice, no source")),
    severity=Severity.DAMAGE,
    remedy_hint="a pulley bored for the shaft",
    examples=(
        Example(
            "bush of 10 on 8 mm, the fits taken off",
            {"bush.shaft_diameter": (9.991, 10.0, 10.0), "bush.bore_diameter": (8.0, 8.0, 8.02)},
            "holds",
            0.02,
        ),
        Example("exactly on the limit", {"bush.shaft_diameter": 9.96, "bush.bore_diameter": 8.0}, "holds", 0.0),
        Example(
            "bush of 8 on 6.35 mm",
            {"bush.shaft_diameter": 8.0, "bush.bore_diameter": 6.35},
            "fails",
            -0.155,
        ),
        Example("bore of the bush unread", {"bush.shaft_diameter": 10.0}, "undecided"),
    ),
)
