"""Where nobody has drawn the holes, their outer distances still tell when the screws cannot all go in: the outermost
screws are then off by half of the difference at each end, however the box is pushed.
"""

from fitdb.model.reading import Outline
from fitdb.model.rule import NOTHING_TO_GUARD, AtLeast, Bound, Constant, Example, NothingToGuard, Rule, Severity, Shape
from fitdb.model.source import Source

DRAWING = Source("drawing", "caliper", "drawn for a worked example", "own reading")


def quantity(
    rim: Outline,
    inserts: Outline,
    box_length: float,
    insert_length: float,
    box_width: float,
    insert_width: float,
    holes: int,
    insert_count: int,
    hole_diameter: float,
    screws: tuple[float, ...],
    usual_screw: float,
) -> float | NothingToGuard:
    """Play less half of the greater difference, holes taken as round. Drawn holes are laid on each other instead."""
    if rim.holes and inserts.holes:
        return NOTHING_TO_GUARD
    apart = (box_length - insert_length, box_width - insert_width)
    # Inserts that no screw needs may stand outside the box's holes; without such, every one has to be met.
    off = max(apart) if insert_count > holes else max(abs(one) for one in apart)
    play = (hole_diameter - (screws[0] if screws else usual_screw)) / 2.0
    return play - max(off, 0.0) / 2.0


UNDRAWN = Outline((), (), 0.0, DRAWING)
DRAWN = Outline((), ((-150.0, 0.0, 4.5, 0.0, 0.0), (150.0, 0.0, 4.5, 0.0, 0.0)), 0.0, DRAWING)
SIZES = {
    "enclosure.outline": UNDRAWN,
    "deck.outline": UNDRAWN,
    "enclosure.grid_width": 150.0,
    "deck.grid_width": 150.0,
    "enclosure.hole_count": 8,
    "deck.insert_count": 8,
    "enclosure.hole_diameter": 4.5,
    "box_screw*.major_diameter": (4.0,),
}

RULE = Rule(
    question="Do the outermost screws meet their inserts, as far as the two grids tell?",
    needs=(
        "enclosure.outline",
        "deck.outline",
        "enclosure.grid_length",
        "deck.grid_length",
        "enclosure.grid_width",
        "deck.grid_width",
        "enclosure.hole_count",
        "deck.insert_count",
        "enclosure.hole_diameter",
        "box_screw*.major_diameter",
    ),
    quantity=quantity,
    measures="play left at the outermost screws, box pushed to the middle",
    formula="m = (Ø_hole − Ø_screw)/2 − max(|Δ_along|, |Δ_across|)/2; inserts to spare: of a larger box only",
    unit="mm",
    hard=AtLeast(Bound("box_holes.undrawn_grids_meet.least", 0.0, "ASME Y14.5-2009, appendix B")),
    severity=Severity.DAMAGE,
    shape=Shape.SAMPLED,
    constants=(Constant("usual_screw", 4.0, "mm", "ISO 261: M4, the usual screw of a box"),),
    remedy_hint="slot the holes and draw them, put an adapter frame between, or set new inserts",
    examples=(
        Example(
            "0.3 mm apart",
            {**SIZES, "enclosure.grid_length": 320.3, "deck.grid_length": (319.9, 320.0, 320.1)},
            "holds",
            0.1,
        ),
        Example(
            "1.5 mm apart",
            {**SIZES, "enclosure.grid_length": (321.4, 321.5, 321.6), "deck.grid_length": (319.9, 320.0, 320.1)},
            "fails",
            -0.5,
            two_numbers="321.5 and 320 agree within half a per cent: two numbers say yes",
        ),
        Example(
            "inserts to spare outside the box's holes",
            {**SIZES, "deck.insert_count": 10, "enclosure.grid_length": 320.0, "deck.grid_length": 400.0},
            "holds",
            0.25,
        ),
        Example(
            "exactly on the limit",
            {**SIZES, "enclosure.grid_length": 320.5, "deck.grid_length": 320.0},
            "holds",
            0.0,
        ),
        Example(
            "both drawn",
            {
                **SIZES,
                "enclosure.outline": DRAWN,
                "deck.outline": DRAWN,
                "enclosure.grid_length": 300.0,
                "deck.grid_length": 306.0,
            },
            "excused",
        ),
        Example("inserts unread", {**SIZES, "enclosure.grid_length": 320.0}, "undecided"),
    ),
)
