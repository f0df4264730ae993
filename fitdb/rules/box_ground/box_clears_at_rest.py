"""The box has to stay off the ground with the rider standing still, with room for a stone and a worn wheel. Gaskets and
frames lower it, and so does a skid plate. The height of the middle is measured, or built up from the parts and then the
sag of the deck taken off.
"""

from fitdb.formulas.box_fixing import between_box_and_deck
from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity


def quantity(
    mid_height: float,
    depth: float,
    gaskets: tuple[float, ...],
    compressions: tuple[float, ...],
    frames: tuple[float, ...],
    more_gaskets: tuple[float, ...],
    skid_plates: tuple[float, ...],
) -> float:
    return mid_height - depth - between_box_and_deck(gaskets, compressions, frames, more_gaskets) - sum(skid_plates)


RULE = Rule(
    question="Does the box stay off the ground with the rider standing still?",
    needs=(
        "deck.mid_height",
        "enclosure.depth",
        "gasket*.thickness",
        "gasket*.compression",
        "spacer_frame*.thickness",
        "spacer_frame*.extra_gasket",
        "skid_plate*.thickness",
    ),
    quantity=quantity,
    measures="box to ground at mid, rider standing",
    formula="c = R + H + camber − drop − δ − depth − gaskets − frames − skid plate",
    unit="mm",
    hard=AtLeast(Bound("box_ground.box_clears_at_rest.least", 30.0, "common practice, no source")),
    comfort=AtLeast(Bound("box_ground.box_clears_at_rest.comfort", 45.0, "common practice, no source")),
    severity=Severity.FIRE,
    caution=(
        "A box that strikes a kerb crushes cells. Swollen, dented, wet, hot or oddly smelling: do not charge, do "
        "not ride. Put it outdoors away from anything that burns, and call your local fire or waste service for "
        "advice."
    ),
    remedy_hint="larger wheels, a riser, or a flatter pack",
    examples=(
        Example(
            "90 mm wheels, 48 mm box, thin gasket",
            {
                "deck.mid_height": (112.0, 113.8, 115.6),
                "enclosure.depth": (47.5, 48.0, 48.5),
                "gasket*.thickness": ((2.8, 3.0, 3.2),),
                "gasket*.compression": (40.0,),
            },
            "holds",
            34.0,
        ),
        Example(
            "deep box with frame and skid plate under a dropped deck",
            {
                "deck.mid_height": (83.0, 85.0, 87.0),
                "enclosure.depth": (47.5, 48.0, 48.5),
                "gasket*.thickness": (5.0,),
                "gasket*.compression": (40.0,),
                "spacer_frame*.thickness": (5.0,),
                "skid_plate*.thickness": (3.0,),
            },
            "fails",
            -4.0,
            two_numbers=(
                "85 − 48 = 37 mm is more than 30: height less depth says yes, gasket, frame and plate are forgotten"
            ),
        ),
        Example("exactly on the limit", {"deck.mid_height": 90.0, "enclosure.depth": 60.0}, "holds", 0.0),
        Example("depth unread", {"deck.mid_height": 114.0}, "undecided"),
    ),
)
