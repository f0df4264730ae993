"""On a bump the deck sinks about twice as far as under a standing rider. The box must not touch even then: it would be
crushed between road and deck at speed.
"""

from fitdb.formulas.box_fixing import between_box_and_deck
from fitdb.model.rule import AtLeast, Bound, Constant, Example, Published, Rule, Severity


def quantity(
    mid_height: float,
    sag: float,
    depth: float,
    gaskets: tuple[float, ...],
    compressions: tuple[float, ...],
    frames: tuple[float, ...],
    more_gaskets: tuple[float, ...],
    skid_plates: tuple[float, ...],
    times_sag: float,
) -> float:
    # The height with the rider standing holds one sag already.
    low = mid_height - (times_sag - 1.0) * sag
    return low - depth - between_box_and_deck(gaskets, compressions, frames, more_gaskets) - sum(skid_plates)


RULE = Rule(
    question="Does the box stay off the ground on a bump?",
    needs=(
        "deck.mid_height",
        "deck.static_sag",
        "enclosure.depth",
        "gasket*.thickness",
        "gasket*.compression",
        "spacer_frame*.thickness",
        "spacer_frame*.extra_gasket",
        "skid_plate*.thickness",
    ),
    quantity=quantity,
    measures="box to ground at mid, at twice the sag of the standing rider",
    formula="c = R + H + camber − drop − 2δ − depth − gaskets − frames − skid plate",
    unit="mm",
    hard=AtLeast(Bound("box_ground.box_clears_on_a_bump.least", 10.0, "common practice, no source")),
    severity=Severity.FIRE,
    constants=(Constant("times_sag", 2.0, "1", "Gere, Mechanics of Materials: a load let go without a drop"),),
    published=(
        Published("a load let go without a drop sinks twice as far as at rest", "Gere, Mechanics of Materials"),
    ),
    caution=(
        "On rough ground count 2.5 times the sag. A box that strikes the road crushes cells: swollen, dented or "
        "hot, do not charge, do not ride, put it outdoors away from anything that burns."
    ),
    remedy_hint="a stiffer deck, larger wheels, a riser, or a flatter pack",
    examples=(
        Example(
            "flexible deck, 48 mm box",
            {
                "deck.mid_height": (111.0, 113.8, 116.6),
                "deck.static_sag": (13.0, 15.2, 17.5),
                "enclosure.depth": (47.0, 48.0, 49.0),
            },
            "holds",
            40.6,
        ),
        Example(
            "low soft deck",
            {
                "deck.mid_height": (77.0, 80.0, 83.0),
                "deck.static_sag": (28.0, 30.0, 33.0),
                "enclosure.depth": (47.0, 48.0, 49.0),
            },
            "fails",
            -8.0,
            two_numbers="80 − 48 = 32 mm at rest: height less depth says yes",
        ),
        Example(
            "exactly on the limit",
            {"deck.mid_height": 90.0, "deck.static_sag": 20.0, "enclosure.depth": 60.0},
            "holds",
            0.0,
        ),
        Example("sag unread", {"deck.mid_height": 114.0, "enclosure.depth": 48.0}, "undecided"),
    ),
)
