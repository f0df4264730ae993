"""Rim, gasket, frame and washers take their share of the screw; only the rest holds. On too little thread the screw
strips the insert at the first bump.
"""

from fitdb.formulas.box_fixing import between_box_and_deck, screw_in_the_insert
from fitdb.model.rule import AtLeast, Bound, Example, Published, Rule, Severity


def quantity(
    length: float,
    washers: float,
    flange: float,
    gaskets: tuple[float, ...],
    compressions: tuple[float, ...],
    frames: tuple[float, ...],
    more_gaskets: tuple[float, ...],
    diameter: float,
) -> float:
    between = between_box_and_deck(gaskets, compressions, frames, more_gaskets)
    return screw_in_the_insert(length, washers, flange, between) / diameter


RULE = Rule(
    question="Does the screw hold on enough thread?",
    needs=(
        "box_screw.length",
        "box_screw.washer_thickness",
        "enclosure.flange_thickness",
        "gasket*.thickness",
        "gasket*.compression",
        "spacer_frame*.thickness",
        "spacer_frame*.extra_gasket",
        "box_screw.major_diameter",
    ),
    quantity=quantity,
    measures="length of screw in the insert, in screw diameters",
    formula="n = (ℓ − washers − rim − gaskets − frames) / d",
    unit="",
    hard=AtLeast(Bound("insert_screws.screw_grips_the_insert.least", 1.2, "common practice, no source")),
    severity=Severity.DAMAGE,
    published=(
        Published(
            "screw and nut of equal strength: about 0.8 diameters; a brass insert in wood wants more", "ISO 4032"
        ),
    ),
    remedy_hint="the next longer screw",
    examples=(
        Example(
            "M4 × 12 through a 3 mm rim and 3 mm of foam",
            {
                "box_screw.length": (11.7, 12.0, 12.3),
                "box_screw.washer_thickness": 0.8,
                "enclosure.flange_thickness": (2.9, 3.0, 3.1),
                "gasket*.thickness": (3.0,),
                "gasket*.compression": ((35.0, 40.0, 45.0),),
                "box_screw.major_diameter": 4.0,
            },
            "holds",
            0.4,
        ),
        Example(
            "the same with a frame of 5 mm",
            {
                "box_screw.length": (11.7, 12.0, 12.3),
                "box_screw.washer_thickness": 0.8,
                "enclosure.flange_thickness": (2.9, 3.0, 3.1),
                "gasket*.thickness": (3.0,),
                "gasket*.compression": ((35.0, 40.0, 45.0),),
                "spacer_frame*.thickness": (5.0,),
                "box_screw.major_diameter": 4.0,
            },
            "fails",
            -0.85,
            two_numbers="12 is more than 3 + 5: screw against rim and frame says yes",
        ),
        Example(
            "exactly on the limit",
            {
                "box_screw.length": 9.0,
                "box_screw.washer_thickness": 0.0,
                "enclosure.flange_thickness": 3.0,
                "box_screw.major_diameter": 5.0,
            },
            "holds",
            0.0,
        ),
        Example(
            "screw length unread",
            {
                "box_screw.washer_thickness": 0.0,
                "enclosure.flange_thickness": 3.0,
                "box_screw.major_diameter": 5.0,
            },
            "undecided",
        ),
    ),
)
