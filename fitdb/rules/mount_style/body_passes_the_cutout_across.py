"""What hangs below the plate's flange, pivot and kingpin boss, has to drop through the cut-out before the flange lands.

If it does not, the plate rides on its own casting and the bolts bend it down: castings crack that way.
"""

from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity


def quantity(cutout: float, plate: float, flange: float) -> float:
    return cutout - (plate - 2.0 * flange)


RULE = Rule(
    question="Does the body of the plate pass the cut-out across the board?",
    needs=("deck.cutout_width", "truck.plate_width", "truck.flange_width"),
    quantity=quantity,
    measures="cut-out less what stands below the flange, across the board",
    formula="c = cut-out − (plate − 2·flange)",
    unit="mm",
    hard=AtLeast(Bound("mount_style.body_passes_the_cutout_across.least", 0.0, "common practice, no source")),
    comfort=AtLeast(Bound("mount_style.body_passes_the_cutout_across.comfort", 1.0, "common practice, no source")),
    severity=Severity.INJURY,
    caution=(
        "A plate that does not lie on wood all round pulls through the deck, and the truck comes off. If "
        "you are not sure, have a qualified person look at it."
    ),
    remedy_hint="mount the truck under the deck; widening a cut-out cannot be undone",
    examples=(
        Example(
            "64 mm plate with a 9 mm flange",
            {"deck.cutout_width": (48.0 - 1, 48.0, 48.0 + 1), "truck.plate_width": 64.0, "truck.flange_width": 9.0},
            "holds",
            48.0 - 64.0 + 18,
        ),
        Example(
            "the same plate with a flange of 5 mm",
            {"deck.cutout_width": 48.0, "truck.plate_width": 64.0, "truck.flange_width": 5.0},
            "fails",
            48.0 - 64.0 + 10,
        ),
        Example(
            "exactly on the limit",
            {"deck.cutout_width": 64.0 - 16, "truck.plate_width": 64.0, "truck.flange_width": 8.0},
            "holds",
            0.0,
        ),
        Example("flange unread", {"deck.cutout_width": 48.0, "truck.plate_width": 64.0}, "undecided"),
    ),
)
