"""Over the edge of a ramp or driveway the ground comes up between the wheels. The longer the wheelbase, the higher it
comes.
"""

from fitdb.formulas.box_fixing import between_box_and_deck
from fitdb.formulas.deck_flex import breakover_height
from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity


def quantity(
    mid_height: float,
    depth: float,
    gaskets: tuple[float, ...],
    compressions: tuple[float, ...],
    frames: tuple[float, ...],
    more_gaskets: tuple[float, ...],
    skid_plates: tuple[float, ...],
    wheelbase: float,
    ramp_change: float,
) -> float:
    below = depth + between_box_and_deck(gaskets, compressions, frames, more_gaskets) + sum(skid_plates)
    return mid_height - below - breakover_height(wheelbase, ramp_change)


RULE = Rule(
    question="Does the box pass over the sharpest ramp edge of the route?",
    needs=(
        "deck.mid_height",
        "enclosure.depth",
        "gasket*.thickness",
        "gasket*.compression",
        "spacer_frame*.thickness",
        "spacer_frame*.extra_gasket",
        "skid_plate*.thickness",
        "deck.wheelbase",
        "route.ramp_change",
    ),
    quantity=quantity,
    measures="box to the edge of the ramp under mid",
    formula="c = box to ground − (W/2)·tan(α/2)",
    unit="mm",
    hard=AtLeast(Bound("box_ground.box_clears_a_ramp_edge.least", 0.0, "plane geometry")),
    severity=Severity.FIRE,
    caution="Step off and carry the board over an edge that you do not know.",
    remedy_hint="larger wheels, a riser, a flatter pack, or another way",
    examples=(
        Example(
            "66 mm of air, 700 mm wheelbase, edge of 10 degrees",
            {
                "deck.mid_height": (112.0, 114.0, 116.0),
                "enclosure.depth": 48.0,
                "deck.wheelbase": 700.0,
                "route.ramp_change": (9.5, 10.0, 10.5),
            },
            "holds",
            35.379,
        ),
        Example(
            "32 mm of air, 760 mm wheelbase, edge of 11 degrees",
            {
                "deck.mid_height": (79.0, 80.0, 81.0),
                "enclosure.depth": 48.0,
                "deck.wheelbase": 760.0,
                "route.ramp_change": (10.5, 11.0, 11.5),
            },
            "fails",
            -4.591,
            two_numbers="32 mm is more than the 30 mm wanted at rest",
        ),
        Example(
            "level ground: exactly on the limit",
            {
                "deck.mid_height": 80.0,
                "enclosure.depth": 80.0,
                "deck.wheelbase": 700.0,
                "route.ramp_change": 0.0,
            },
            "holds",
            0.0,
        ),
        Example(
            "ramp unread",
            {"deck.mid_height": 114.0, "enclosure.depth": 48.0, "deck.wheelbase": 700.0},
            "undecided",
        ),
    ),
)
