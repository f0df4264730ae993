"""Flush means that plate and wood make one face. In a pocket deeper than the plate is thick, the rim of wood stands
below the plate and the hanger strikes it in a turn.
"""

from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity


def quantity(plate_thickness: float, pocket_depth: float) -> float:
    return plate_thickness - pocket_depth


RULE = Rule(
    question="Is the pocket no deeper than the plate is thick?",
    needs=("truck.plate_thickness", "deck.plate_pocket_depth"),
    quantity=quantity,
    measures="how far the plate stands out of its pocket",
    formula="s = t_plate − pocket",
    unit="mm",
    hard=AtLeast(Bound("mount_style.pocket_is_no_deeper_than_the_plate.least", 0.0, "common practice, no source")),
    severity=Severity.INJURY,
    caution=(
        "A plate that does not lie on wood all round pulls through the deck, and the truck comes off. If "
        "you are not sure, have a qualified person look at it."
    ),
    remedy_hint="a thin riser in the pocket",
    two_numbers_suffice="one depth against one thickness; the spread of both readings is all there is to it",
    examples=(
        Example(
            "6 mm plate in a 4 mm pocket",
            {"truck.plate_thickness": (5.9, 6.0, 6.1), "deck.plate_pocket_depth": (3.7, 4.0, 4.3)},
            "holds",
            2.0,
        ),
        Example(
            "5 mm plate in a 7 mm pocket", {"truck.plate_thickness": 5.0, "deck.plate_pocket_depth": 7.0}, "fails", -2.0
        ),
        Example("exactly on the limit", {"truck.plate_thickness": 6.0, "deck.plate_pocket_depth": 6.0}, "holds", 0.0),
        Example("depth unread", {"truck.plate_thickness": 6.0}, "undecided"),
    ),
)
