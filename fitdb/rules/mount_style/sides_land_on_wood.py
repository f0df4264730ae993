"""On a drop-through deck the plate lies on the wood around the cut-out and carries the rider there. A rim that is too
narrow crushes, and the plate pulls through the deck.
"""

from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity


def quantity(plate: float, cutout: float) -> float:
    return (plate - cutout) / 2.0


RULE = Rule(
    question="Does the plate lie on enough wood at both sides of the cut-out?",
    needs=("truck.plate_width", "deck.cutout_width"),
    quantity=quantity,
    measures="wood under the plate on each side, at both sides of the cut-out",
    formula="l = (plate − cut-out) / 2",
    unit="mm",
    hard=AtLeast(Bound("mount_style.sides_land_on_wood.least", 6.0, "common practice, no source")),
    severity=Severity.INJURY,
    caution="Stand on each end with your full weight before the first ride; look for crushed wood under the plate.",
    remedy_hint="mount the truck under the deck, or take a longer and wider plate",
    examples=(
        Example(
            "64 mm plate over a 48 mm cut-out",
            {"truck.plate_width": (64.0 - 0.5, 64.0, 64.0 + 0.5), "deck.cutout_width": (48.0 - 1, 48.0, 48.0 + 1)},
            "holds",
            2.0,
        ),
        Example(
            "8 mm more plate than cut-out",
            {"truck.plate_width": 64.0, "deck.cutout_width": 64.0 - 8},
            "fails",
            -2.0,
            two_numbers="the plate is larger than the cut-out: comparing two numbers says it cannot fall through",
        ),
        Example("exactly on the limit", {"truck.plate_width": 64.0, "deck.cutout_width": 64.0 - 12}, "holds", 0.0),
        Example("cut-out unread", {"truck.plate_width": 64.0}, "undecided"),
    ),
)
