"""A gasket that is hardly pressed lies beside the scratches and bends of the rim. Water then finds its way to the pack,
and a wet pack may burn days later.
"""

from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity


def quantity(thickness: float, gap: float) -> float:
    return 100.0 * (1.0 - gap / thickness)


RULE = Rule(
    question="Is the gasket pressed enough to seal?",
    needs=("gasket.thickness", "enclosure.rim_gap"),
    quantity=quantity,
    measures="share of its free thickness by which the gasket is pressed",
    formula="c = 100·(1 − gap/t)",
    unit="percent",
    hard=AtLeast(Bound("box_seal.gasket_is_pressed_enough.least", 30.0, "common practice, no source")),
    severity=Severity.FIRE,
    caution=(
        "No opened and re-closed box is waterproof until tested. A wet pack: do not charge, do not ride; put it "
        "outdoors away from anything that burns, and call your local fire or waste service for advice."
    ),
    remedy_hint="a thicker gasket, or lower stops",
    examples=(
        Example(
            "3 mm foam in a gap of 1.8 mm",
            {"gasket.thickness": (2.9, 3.0, 3.1), "enclosure.rim_gap": (1.75, 1.8, 1.85)},
            "holds",
            10.0,
        ),
        Example(
            "3 mm foam in a gap of 2.5 mm",
            {"gasket.thickness": (2.9, 3.0, 3.1), "enclosure.rim_gap": (2.45, 2.5, 2.55)},
            "fails",
            -13.333,
            two_numbers="3 mm of foam in a gap of 2.5 mm touches on both sides",
        ),
        Example("exactly on the limit", {"gasket.thickness": 2.0, "enclosure.rim_gap": 1.4}, "holds", 0.0),
        Example("gap unread", {"gasket.thickness": 3.0}, "undecided"),
    ),
)
