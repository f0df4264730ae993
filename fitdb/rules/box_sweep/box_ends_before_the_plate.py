"""Between the box and the plate of the truck there has to be room for nuts, a key and the end of the gasket. Where they
touch, one of them does not lie flat.
"""

from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity


def quantity(end: float, wheelbase: float, position: float, box_length: float, reach: float) -> float:
    return wheelbase / 2.0 - end * position - box_length / 2.0 - reach


RULE = Rule(
    question="Does the box end before the plate of the truck?",
    needs=(
        "over.end",
        "deck.wheelbase",
        "enclosure.position_from_middle",
        "enclosure.length",
        "truck.inner_reach",
    ),
    quantity=quantity,
    measures="end of the box to the edge of the plate; end is 1 at the rear and −1 in front",
    formula="x = W/2 − end·position − ℓ/2 − reach",
    unit="mm",
    hard=AtLeast(Bound("box_sweep.box_ends_before_the_plate.least", 5.0, "common practice, no source")),
    severity=Severity.DAMAGE,
    remedy_hint="move the box, or take a shorter one",
    examples=(
        Example(
            "480 mm box, 700 mm wheelbase",
            {
                "over.end": 1.0,
                "deck.wheelbase": (698.0, 700.0, 702.0),
                "enclosure.position_from_middle": (-5.0, 0.0, 5.0),
                "enclosure.length": 480.0,
                "truck.inner_reach": 50.0,
            },
            "holds",
            55.0,
        ),
        Example(
            "580 mm box moved 20 mm back",
            {
                "over.end": 1.0,
                "deck.wheelbase": 700.0,
                "enclosure.position_from_middle": (18.0, 20.0, 22.0),
                "enclosure.length": 580.0,
                "truck.inner_reach": 50.0,
            },
            "fails",
            -15.0,
            two_numbers="580 mm of box between plates 600 mm apart: two lengths say yes",
        ),
        Example(
            "exactly on the limit in front",
            {
                "over.end": -1.0,
                "deck.wheelbase": 700.0,
                "enclosure.position_from_middle": -5.0,
                "enclosure.length": 580.0,
                "truck.inner_reach": 50.0,
            },
            "holds",
            0.0,
        ),
        Example(
            "length unread",
            {
                "over.end": 1.0,
                "deck.wheelbase": 700.0,
                "enclosure.position_from_middle": 0.0,
                "truck.inner_reach": 50.0,
            },
            "undecided",
        ),
    ),
)
