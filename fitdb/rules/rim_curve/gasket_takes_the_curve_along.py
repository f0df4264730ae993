"""A cambered deck stands away from a flat rim at its middle or its ends. A gasket closes such a gap by at most two
fifths of its thickness; beyond that water finds the way in.
"""

from fitdb.formulas.box_fixing import curve_under_a_box
from fitdb.model.rule import Between, Bound, Example, Rule, Severity


def quantity(camber: float, wheelbase: float, box_length: float, rim_curve: float, thickness: float) -> float:
    return 100.0 * (curve_under_a_box(camber, box_length, wheelbase) - rim_curve) / thickness


RULE = Rule(
    question="Does the gasket take up the curve of the deck along the board?",
    needs=("deck.camber", "deck.wheelbase", "enclosure.length", "enclosure.rim_curve_along", "gasket.thickness"),
    quantity=quantity,
    measures="mismatch of rim and deck along the board, in percent of the gasket's free thickness",
    formula="m = 100·(camber·(ℓ/L)² − rim curve) / t",
    unit="percent",
    hard=Between(
        Bound("rim_curve.gasket_takes_the_curve_along.low", -40.0, "common practice, no source"),
        Bound("rim_curve.gasket_takes_the_curve_along.high", 40.0, "common practice, no source"),
    ),
    severity=Severity.DAMAGE,
    caution="No opened and re-closed box is waterproof until tested.",
    remedy_hint="a soft gasket of 4 to 6 mm, or a frame shaped to the deck",
    examples=(
        Example(
            "a soft gasket of 10 mm in all",
            {
                "deck.camber": 12.0,
                "deck.wheelbase": 720.0,
                "enclosure.length": 360.0,
                "enclosure.rim_curve_along": 0.0,
                "gasket.thickness": 10.0,
            },
            "holds",
            10,
        ),
        Example(
            "a gasket of 5 mm",
            {
                "deck.camber": 12.0,
                "deck.wheelbase": 720.0,
                "enclosure.length": 360.0,
                "enclosure.rim_curve_along": 0.0,
                "gasket.thickness": (4.8, 5.0, 5.2),
            },
            "fails",
            -20,
            two_numbers="3 mm of curve against 5 mm of gasket: two numbers say yes, but a gasket gives less than half",
        ),
        Example(
            "rim moulded to the deck: exactly on the limit",
            {
                "deck.camber": 12.0,
                "deck.wheelbase": 720.0,
                "enclosure.length": 360.0,
                "enclosure.rim_curve_along": 1.0,
                "gasket.thickness": 5.0,
            },
            "holds",
            0.0,
        ),
        Example(
            "camber unread",
            {
                "deck.wheelbase": 720.0,
                "enclosure.length": 360.0,
                "enclosure.rim_curve_along": 0.0,
                "gasket.thickness": 5.0,
            },
            "undecided",
        ),
    ),
)
