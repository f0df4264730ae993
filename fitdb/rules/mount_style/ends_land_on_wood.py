"""On a drop-through deck the plate lies on the wood around the cut-out and carries the rider there. A rim that is too
narrow crushes, and the plate pulls through the deck.
"""

from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity


def quantity(plate: float, cutout: float) -> float:
    return (plate - cutout) / 2.0


RULE = Rule(
    question="Does the plate lie on enough wood at both ends of the cut-out?",
    needs=("truck.plate_length", "deck.cutout_length"),
    quantity=quantity,
    measures="wood under the plate on each side, at both ends of the cut-out",
    formula="l = (plate − cut-out) / 2",
    unit="mm",
    hard=AtLeast(Bound("mount_style.ends_land_on_wood.least", 6.0, "common practice, no source")),
    severity=Severity.INJURY,
    caution="Stand on each end with your full weight before the first ride; look for crushed wood under the plate.",
    remedy_hint="mount the truck under the deck, or take a longer and wider plate",
    examples=(
        Example(
            "100 mm plate over a 82 mm cut-out",
            {"truck.plate_length": (100.0 - 0.5, 100.0, 100.0 + 0.5), "deck.cutout_length": (82.0 - 1, 82.0, 82.0 + 1)},
            "holds",
            3.0,
        ),
        Example(
            "8 mm more plate than cut-out",
            {"truck.plate_length": 100.0, "deck.cutout_length": 100.0 - 8},
            "fails",
            -2.0,
            two_numbers="the plate is larger than the cut-out: comparing two numbers says it cannot fall through",
        ),
        Example("exactly on the limit", {"truck.plate_length": 100.0, "deck.cutout_length": 100.0 - 12}, "holds", 0.0),
        Example("cut-out unread", {"truck.plate_length": 100.0}, "undecided"),
    ),
)
