"""All screws of the box have to meet their inserts at the same time. An insert holds its screw where it is, so only
the play in the rim's holes helps: a screw that is driven in at a slant strips the insert or pulls it out.
"""

from fitdb.formulas.hole_misfit import pattern_misfit
from fitdb.formulas.hole_neighbours import misfit_by_neighbours
from fitdb.model.reading import Outline
from fitdb.model.rule import AtLeast, Bound, Constant, Example, Published, Rule, Severity, Shape, Unsettled
from fitdb.model.source import Source

DRAWING = Source("drawing", "caliper", "drawn for a worked example", "own reading")
EVERY_SCREW = 80
FAR_APART = 2.0


def quantity(
    rim: Outline, inserts: Outline, hole_diameter: float, screws: tuple[float, ...], usual_screw: float
) -> float | Unsettled:
    """Play left at the tightest screw, the box pushed to its best place; every screw has to find an insert."""
    if not (rim.holes and inserts.holes):
        return Unsettled("holes or inserts are not drawn: hold the box under the deck and look through its holes")
    screw = screws[0] if screws else usual_screw
    play = (hole_diameter - screw) / 2.0 + rim.spread + inserts.spread
    # Laying many slots on many holes takes long: far apart patterns are refused by the distances of their holes.
    apart = misfit_by_neighbours(rim.holes, inserts.holes)
    if apart > play + FAR_APART:
        return play - apart
    least, reached = pattern_misfit(rim.holes, inserts.holes, bolts=EVERY_SCREW)
    # Between what a motion reaches and what none undercuts there is no answer but to hold the box up.
    if play - reached < 0.0 <= play - least:
        return Unsettled("the slots may just line up: hold the box under the deck and try the screws")
    return play - reached


def _drawn(length: float, width: float, spread: float = 0.0, middle: float | None = None, slot: float = 0.0) -> Outline:
    rows = (-length / 2, length / 2) if middle is None else (-length / 2, middle, length / 2)
    holes = tuple((x, y * width / 2, 4.5, slot, 0.0) for x in rows for y in (-1, 1))
    return Outline((), holes, spread, DRAWING)


SIZES = {"enclosure.hole_diameter": 4.5, "box_screw*.major_diameter": (4.0,)}

RULE = Rule(
    question="Do all screws of the box drop into their inserts?",
    needs=("enclosure.outline", "deck.outline", "enclosure.hole_diameter", "box_screw*.major_diameter"),
    quantity=quantity,
    measures="play left at the tightest screw, box pushed to its best place",
    formula="m = (Ø_hole − Ø_screw)/2 − misfit of the two patterns",
    unit="mm",
    hard=AtLeast(Bound("box_holes.screws_drop_in.least", 0.0, "ASME Y14.5-2009, appendix B")),
    severity=Severity.DAMAGE,
    shape=Shape.ASKED,
    directions=(+1, +1, +1, -1),
    constants=(Constant("usual_screw", 4.0, "mm", "ISO 261: M4, the usual screw of a box"),),
    published=(
        Published("a screw held by its insert lets the hole be off place by H − F in diameter", "ASME Y14.5-2009, B.4"),
    ),
    remedy_hint="slot the holes and use washers, put an adapter frame between, or set new inserts",
    examples=(
        Example(
            "eight mm of slot take up another grid",
            {
                "enclosure.outline": _drawn(300.0, 150.0, 0.0, None, 8.0),
                "deck.outline": _drawn(306.0, 150.0),
                **SIZES,
            },
            "holds",
            0.25,
            two_numbers="300 is not 306: comparing the grids says no",
        ),
        Example(
            "the middle pair is 2 mm off although the grids are equal",
            {
                "enclosure.outline": _drawn(300.0, 150.0, 0.1, 0.0),
                "deck.outline": _drawn(300.0, 150.0, 0.1, 2.0),
                **SIZES,
            },
            "fails",
            -0.75,
            two_numbers="300 × 150 on 300 × 150: comparing the grids says yes",
        ),
        Example(
            "grids half a millimetre apart: exactly on the limit",
            {"enclosure.outline": _drawn(300.0, 150.0), "deck.outline": _drawn(300.5, 150.0), **SIZES},
            "holds",
            0.0,
        ),
        Example(
            "inserts not drawn",
            {"enclosure.outline": _drawn(300.0, 150.0), "deck.outline": Outline((), (), 0.0, DRAWING), **SIZES},
            "undecided",
        ),
        Example("hole diameter unread", {"enclosure.outline": _drawn(300.0, 150.0)}, "undecided"),
    ),
)
