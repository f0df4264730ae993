"""A screw that is too long reaches the bottom of its insert, lifts it out of the wood, or comes out through the grip
under the rider's foot. It feels tight while the gasket is loose.
"""

from fitdb.formulas.box_fixing import between_box_and_deck, screw_in_the_insert
from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity


def quantity(
    depth: float,
    length: float,
    washers: float,
    flange: float,
    gaskets: tuple[float, ...],
    compressions: tuple[float, ...],
    frames: tuple[float, ...],
    more_gaskets: tuple[float, ...],
) -> float:
    between = between_box_and_deck(gaskets, compressions, frames, more_gaskets)
    return depth - screw_in_the_insert(length, washers, flange, between)


RULE = Rule(
    question="Does the screw end inside its insert?",
    needs=(
        "deck.insert_depth",
        "box_screw.length",
        "box_screw.washer_thickness",
        "enclosure.flange_thickness",
        "gasket*.thickness",
        "gasket*.compression",
        "spacer_frame*.thickness",
        "spacer_frame*.extra_gasket",
    ),
    quantity=quantity,
    measures="thread of the insert left beyond the tip of the screw",
    formula="s = depth − (ℓ − washers − rim − gaskets − frames)",
    unit="mm",
    hard=AtLeast(Bound("insert_screws.screw_ends_in_the_insert.least", 0.0, "plane geometry")),
    severity=Severity.DAMAGE,
    remedy_hint="the next shorter screw, or washers",
    examples=(
        Example(
            "M4 × 12, 8 mm insert",
            {
                "deck.insert_depth": (7.8, 8.0, 8.2),
                "box_screw.length": (11.7, 12.0, 12.3),
                "box_screw.washer_thickness": 0.8,
                "enclosure.flange_thickness": 3.0,
                "gasket*.thickness": (3.0,),
                "gasket*.compression": ((35.0, 40.0, 45.0),),
            },
            "holds",
            1.6,
        ),
        Example(
            "M4 × 16, 8 mm insert",
            {
                "deck.insert_depth": (7.8, 8.0, 8.2),
                "box_screw.length": (15.7, 16.0, 16.3),
                "box_screw.washer_thickness": 0.8,
                "enclosure.flange_thickness": 3.0,
                "gasket*.thickness": (3.0,),
                "gasket*.compression": ((35.0, 40.0, 45.0),),
            },
            "fails",
            -2.4,
            two_numbers="it grips 10 mm of thread, more than enough: a longer screw looks stronger",
        ),
        Example(
            "exactly on the limit",
            {
                "deck.insert_depth": 8.0,
                "box_screw.length": 12.0,
                "box_screw.washer_thickness": 1.0,
                "enclosure.flange_thickness": 3.0,
            },
            "holds",
            0.0,
        ),
        Example(
            "insert depth unread",
            {
                "box_screw.length": 12.0,
                "box_screw.washer_thickness": 1.0,
                "enclosure.flange_thickness": 3.0,
            },
            "undecided",
        ),
    ),
)
