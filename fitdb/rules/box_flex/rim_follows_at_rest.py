"""A deck curves under its rider, a stiff box does not. What the rim cannot follow pulls at its inserts and bends the
cells inside, hour after hour.
"""

from fitdb.formulas.deck_flex import sagitta_under_box
from fitdb.model.rule import AtLeast, Bound, Constant, Example, Rule, Severity


def quantity(give: float, sag: float, box_length: float, wheelbase: float, times_sag: float) -> float:
    # A box longer than the wheelbase lies against the deck between the trucks only.
    return give - sagitta_under_box(times_sag * sag, min(box_length, wheelbase), wheelbase)


RULE = Rule(
    question="Does the rim of the box follow the bending deck at rest?",
    needs=("enclosure.rim_give", "deck.static_sag", "enclosure.length", "deck.wheelbase"),
    quantity=quantity,
    measures="give of rim and fixings less the curve of the deck under the box",
    formula="e = give − δ·[1.5(ℓ/L)² − 0.5(ℓ/L)³]",
    unit="mm",
    hard=AtLeast(
        Bound("box_flex.rim_follows_at_rest.least", 0.0, "plane geometry; the give: common practice, no source")
    ),
    severity=Severity.FIRE,
    constants=(
        Constant(
            "times_sag",
            1.0,
            "1",
            "the rider stands still",
        ),
    ),
    caution=(
        "A pack bent once may fail hours or months later and set fire to the box. Do not open, weld or repair a pack "
        "unless you are trained for it. Ask a qualified pack builder."
    ),
    remedy_hint="floating fixings over a soft pad, a soft shell, two short boxes, or a stiffer deck",
    examples=(
        Example(
            "short hard box on a stiff deck",
            {
                "enclosure.rim_give": 1.5,
                "deck.static_sag": (3.5, 4.0, 4.5),
                "enclosure.length": 200.0,
                "deck.wheelbase": 700.0,
            },
            "holds",
            1.057,
        ),
        Example(
            "long hard box on a flexible deck",
            {
                "enclosure.rim_give": 1.5,
                "deck.static_sag": (13.0, 15.2, 17.5),
                "enclosure.length": 480.0,
                "deck.wheelbase": 760.0,
            },
            "fails",
            -5.680,
            two_numbers="480 mm of box on 760 mm between the axles: two lengths say yes",
        ),
        Example(
            "as long as the wheelbase: exactly on the limit",
            {"enclosure.rim_give": 8.0, "deck.static_sag": 8.0, "enclosure.length": 700.0, "deck.wheelbase": 700.0},
            "holds",
            0.0,
        ),
        Example(
            "stiffness guessed",
            {
                "enclosure.rim_give": 3.0,
                "deck.static_sag": (2.0, 4.0, 12.0),
                "enclosure.length": 400.0,
                "deck.wheelbase": 700.0,
            },
            "undecided",
            1.414,
        ),
        Example(
            "sag unread", {"enclosure.rim_give": 1.5, "enclosure.length": 480.0, "deck.wheelbase": 760.0}, "undecided"
        ),
    ),
)
