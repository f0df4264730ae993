"""Foam that is pressed by more than half takes a set: it seals once and never again, and the screws bow the rim."""

from fitdb.model.rule import AtMost, Bound, Example, Rule, Severity


def quantity(thickness: float, gap: float) -> float:
    return 100.0 * (1.0 - gap / thickness)


RULE = Rule(
    question="Is the gasket pressed no more than it bears?",
    needs=("gasket.thickness", "enclosure.rim_gap"),
    quantity=quantity,
    measures="share of its free thickness by which the gasket is pressed",
    formula="c = 100·(1 − gap/t)",
    unit="percent",
    hard=AtMost(Bound("box_seal.gasket_is_not_crushed.most", 50.0, "common practice, no source")),
    severity=Severity.DAMAGE,
    caution="A gasket that was opened seals less well when it is closed again. Claim only what was tested with water.",
    remedy_hint="a thinner or softer gasket, or stops beside the screws",
    examples=(
        Example(
            "3 mm foam in a gap of 1.8 mm",
            {"gasket.thickness": (2.9, 3.0, 3.1), "enclosure.rim_gap": (1.75, 1.8, 1.85)},
            "holds",
            10.0,
        ),
        Example(
            "6 mm foam in a gap of 1.8 mm",
            {"gasket.thickness": (5.8, 6.0, 6.2), "enclosure.rim_gap": (1.75, 1.8, 1.85)},
            "fails",
            -20.0,
            two_numbers="a thicker gasket always looks tighter",
        ),
        Example("exactly on the limit", {"gasket.thickness": 2.0, "enclosure.rim_gap": 1.0}, "holds", 0.0),
        Example("gap unread", {"gasket.thickness": 3.0}, "undecided"),
    ),
)
