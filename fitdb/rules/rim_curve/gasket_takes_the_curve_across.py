"""A concave deck stands away from a flat rim along its middle or its edges. A gasket closes such a gap by at most two
fifths of its thickness; beyond that water finds the way in.
"""

from fitdb.formulas.box_fixing import curve_under_a_box
from fitdb.model.rule import Between, Bound, Example, Rule, Severity


def quantity(concave: float, deck_width: float, box_width: float, rim_curve: float, thickness: float) -> float:
    return 100.0 * (curve_under_a_box(concave, box_width, deck_width) - rim_curve) / thickness


RULE = Rule(
    question="Does the gasket take up the curve of the deck across the board?",
    needs=("deck.concave", "deck.width", "enclosure.width", "enclosure.rim_curve_across", "gasket.thickness"),
    quantity=quantity,
    measures="mismatch of rim and deck across the board, in percent of the gasket's free thickness",
    formula="m = 100·(concave·(w/B)² − rim curve) / t",
    unit="percent",
    hard=Between(
        Bound("rim_curve.gasket_takes_the_curve_across.low", -40.0, "common practice, no source"),
        Bound("rim_curve.gasket_takes_the_curve_across.high", 40.0, "common practice, no source"),
    ),
    severity=Severity.DAMAGE,
    caution="No opened and re-closed box is waterproof until tested.",
    remedy_hint="a soft gasket of 4 to 6 mm, or a frame shaped to the deck",
    examples=(
        Example(
            "a soft gasket of 16 mm in all",
            {
                "deck.concave": 8.0,
                "deck.width": 240.0,
                "enclosure.width": 180.0,
                "enclosure.rim_curve_across": 0.0,
                "gasket.thickness": 16.0,
            },
            "holds",
            11.875,
        ),
        Example(
            "a gasket of 5 mm",
            {
                "deck.concave": 8.0,
                "deck.width": 240.0,
                "enclosure.width": 180.0,
                "enclosure.rim_curve_across": 0.0,
                "gasket.thickness": (4.8, 5.0, 5.2),
            },
            "fails",
            -50,
            two_numbers=(
                "4.5 mm of curve against 5 mm of gasket: two numbers say yes, but a gasket gives less than half"
            ),
        ),
        Example(
            "rim moulded to the deck: exactly on the limit",
            {
                "deck.concave": 8.0,
                "deck.width": 240.0,
                "enclosure.width": 180.0,
                "enclosure.rim_curve_across": 2.5,
                "gasket.thickness": 5.0,
            },
            "holds",
            0.0,
        ),
        Example(
            "concave unread",
            {"deck.width": 240.0, "enclosure.width": 180.0, "enclosure.rim_curve_across": 0.0, "gasket.thickness": 5.0},
            "undecided",
        ),
    ),
)
