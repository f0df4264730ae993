"""The hole grids have to be equally long along the board, give or take what the holes leave as play.

The number alone speaks for bolts of 5 mm in holes of about 5.4 mm; where the holes and bolts are known, the play of
the bolts decides instead.
"""

from fitdb.model.rule import Between, Bound, Example, Rule, Severity, Shape


def quantity(mismatch: float) -> float:
    return mismatch


RULE = Rule(
    question="Are the hole grids of plate and deck equally far apart along the board?",
    needs=("deck_side.length_mismatch",),
    quantity=quantity,
    measures="hole distance of the plate less that of the deck, along the board",
    formula="Δ = g_plate − g_deck",
    unit="mm",
    hard=Between(
        Bound("deck_holes.grid_lengths_agree.low", -0.8, "common practice, no source"),
        Bound("deck_holes.grid_lengths_agree.high", 0.8, "common practice, no source"),
    ),
    severity=Severity.DAMAGE,
    shape=Shape.SAMPLED,
    excused_by="deck_holes.bolts_drop_through",
    remedy_hint="up to 1.5 mm: slot the holes; more: an adapter plate",
    two_numbers_suffice="it is a comparison of two grid sizes, and gives way to the play of the bolts",
    examples=(
        Example("equal grids, each read to 0.2 mm", {"deck_side.length_mismatch": (-0.4, 0.0, 0.4)}, "holds", 0.8),
        Example("63.5 mm on 54.0 mm", {"deck_side.length_mismatch": 9.5}, "fails", round(0.8 - 9.5, 2)),
        Example("exactly on the limit", {"deck_side.length_mismatch": -0.8}, "holds", 0.0),
        Example("grid read with a ruler", {"deck_side.length_mismatch": (-1.4, 0.0, 1.4)}, "undecided", 0.8),
        Example("grid unread", {}, "undecided"),
    ),
)
