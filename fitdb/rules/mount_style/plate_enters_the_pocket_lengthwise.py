"""A flush mount sinks the plate into a pocket of the deck. The pocket has to be larger than the plate: a plate that is
pressed in wedges the plies apart.
"""

from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity


def quantity(pocket: float, plate: float) -> float:
    return pocket - plate


RULE = Rule(
    question="Does the plate enter the pocket of the deck, in its length?",
    needs=("deck.plate_pocket_length", "truck.plate_length"),
    quantity=quantity,
    measures="pocket less plate, in length",
    formula="c = pocket − plate",
    unit="mm",
    hard=AtLeast(Bound("mount_style.plate_enters_the_pocket_lengthwise.least", 0.0, "common practice, no source")),
    comfort=AtLeast(Bound("mount_style.plate_enters_the_pocket_lengthwise.comfort", 0.5, "common practice, no source")),
    severity=Severity.INJURY,
    caution=(
        "A plate that does not lie on wood all round pulls through the deck, and the truck comes off. If "
        "you are not sure, have a qualified person look at it."
    ),
    remedy_hint="a flat riser under the plate makes a top mount of it",
    two_numbers_suffice="one size has to pass another; the spread of both readings is all there is to it",
    examples=(
        Example(
            "1 mm of air",
            {"deck.plate_pocket_length": (92.0, 92.0 + 1, 92.0 + 2), "truck.plate_length": 92.0},
            "holds",
            1.0,
        ),
        Example("plate 2 mm larger", {"deck.plate_pocket_length": 92.0, "truck.plate_length": 92.0 + 2}, "fails", -2.0),
        Example("exactly on the limit", {"deck.plate_pocket_length": 92.0, "truck.plate_length": 92.0}, "holds", 0.0),
        Example("pocket unread", {"truck.plate_length": 92.0}, "undecided"),
    ),
)
