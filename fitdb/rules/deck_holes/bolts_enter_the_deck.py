"""A bolt has to enter its hole before any pattern matters. A 3/16 in drill makes 4.76 mm, and the common inch bolt
(number 10) measures 4.83: it does not go in, and what is forced in splits the wood or the plate.
"""

from fitdb.model.rule import AtLeast, Bound, Example, Published, Rule, Severity


def quantity(hole: float, bolt: float) -> float:
    return hole - bolt


RULE = Rule(
    question="Do the bolts enter the holes of the deck?",
    needs=("deck_side.hole_diameter", "deck_bolt.major_diameter"),
    quantity=quantity,
    measures="hole diameter less the diameter over the bolt's thread",
    formula="Δ = Ø_hole − b",
    unit="mm",
    hard=AtLeast(Bound("deck_holes.bolts_enter_the_deck.least", 0.0, "ASME Y14.5-2009, appendix B")),
    comfort=AtLeast(Bound("deck_holes.bolts_enter_the_deck.comfort", 0.3, "common practice, no source")),
    severity=Severity.DAMAGE,
    published=(
        Published("clearance drills for number 10: 5.22 mm close, 5.61 mm normal", "ASME B18.2.8"),
        Published("clearance holes for M5: 5.3, 5.5, 5.8 mm", "ISO 273"),
    ),
    examples=(
        Example(
            "M5 in a 5.4 mm hole",
            {"deck_side.hole_diameter": (5.3, 5.4, 5.5), "deck_bolt.major_diameter": 5.0},
            "holds",
            0.4,
        ),
        Example(
            "number 10 in a hole from a 3/16 in drill",
            {"deck_side.hole_diameter": 4.7625, "deck_bolt.major_diameter": 4.826},
            "fails",
            -0.0635,
            two_numbers="3/16 in drill and number 10 bolt both read as 4.8 mm",
        ),
        Example(
            "exactly on the limit", {"deck_side.hole_diameter": 5.0, "deck_bolt.major_diameter": 5.0}, "holds", 0.0
        ),
        Example("hole unread", {"deck_bolt.major_diameter": 5.0}, "undecided"),
    ),
)
