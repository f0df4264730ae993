"""Camber and concave add up: where the middle of the long sides stands highest, the middle of the short ends stands
lowest, and one gasket has to close both.
"""

from fitdb.formulas.box_fixing import curve_under_a_box
from fitdb.model.rule import Between, Bound, Example, Rule, Severity


def quantity(
    concave: float,
    deck_width: float,
    box_width: float,
    rim_across: float,
    camber: float,
    wheelbase: float,
    box_length: float,
    rim_along: float,
    thickness: float,
) -> float:
    across = curve_under_a_box(concave, box_width, deck_width) - rim_across
    along = curve_under_a_box(camber, box_length, wheelbase) - rim_along
    return 100.0 * (across + along) / thickness


BOX = {
    "deck.concave": 4.0,
    "deck.width": 240.0,
    "enclosure.width": 180.0,
    "enclosure.rim_curve_across": 0.0,
    "deck.camber": 12.0,
    "deck.wheelbase": 720.0,
    "enclosure.length": 240.0,
    "enclosure.rim_curve_along": 0.0,
}

RULE = Rule(
    question="Does the gasket take up both curves of the deck at once?",
    needs=(
        "deck.concave",
        "deck.width",
        "enclosure.width",
        "enclosure.rim_curve_across",
        "deck.camber",
        "deck.wheelbase",
        "enclosure.length",
        "enclosure.rim_curve_along",
        "gasket.thickness",
    ),
    quantity=quantity,
    measures="mismatch of rim and deck, both curves, in percent of the gasket's free thickness",
    formula="m = 100·[concave·(w/B)² − rim across + camber·(ℓ/L)² − rim along] / t",
    unit="percent",
    hard=Between(
        Bound("rim_curve.gasket_takes_both_curves.low", -40.0, "common practice, no source"),
        Bound("rim_curve.gasket_takes_both_curves.high", 40.0, "common practice, no source"),
    ),
    severity=Severity.DAMAGE,
    caution="No opened and re-closed box is waterproof until tested.",
    remedy_hint="a soft gasket of 4 to 6 mm, a frame shaped to the deck, or a shorter box",
    examples=(
        Example("short box, 10 mm of soft foam", {**BOX, "gasket.thickness": 10.0}, "holds", 4.17),
        Example(
            "short box, gasket of 6 mm",
            {**BOX, "gasket.thickness": (5.9, 6.0, 6.1)},
            "fails",
            -19.72,
            two_numbers="2.25 mm across and 1.33 mm along, each under 2.4 mm: taken one by one both say yes",
        ),
        Example(
            "rim moulded to the deck: exactly on the limit",
            {**BOX, "enclosure.rim_curve_across": 0.25, "deck.camber": 0.0, "gasket.thickness": 5.0},
            "holds",
            0.0,
        ),
        Example("gasket unread", BOX, "undecided"),
    ),
)
