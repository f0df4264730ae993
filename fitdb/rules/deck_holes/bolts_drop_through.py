"""All four bolts have to pass both parts at once, wherever the plate is pushed. Holes are wider than bolts, and that
little play is all there is: bolts that are driven in bend, and the wood splits from the hole outwards.
"""

from math import hypot

from fitdb.formulas.hole_misfit import pattern_misfit
from fitdb.model.reading import Outline
from fitdb.model.rule import AtLeast, Bound, Constant, Example, Published, Rule, Severity, Shape, Unsettled
from fitdb.model.source import Source

DRAWING = Source("drawing", "caliper", "drawn for a worked example", "own reading")


def quantity(
    plate: Outline,
    deck: Outline,
    length_mismatch: float,
    width_mismatch: float,
    plate_hole: float,
    deck_hole: float,
    bolts: tuple[float, ...],
    may_flip: str,
    usual_bolt: float,
) -> float | Unsettled:
    """Play left at the tightest bolt: drawn holes laid on each other, undrawn ones as two grids about one middle."""
    bolt = bolts[0] if bolts else usual_bolt
    play = (plate_hole - bolt) / 2.0 + (deck_hole - bolt) / 2.0 + plate.spread + deck.spread
    if not (plate.holes and deck.holes):
        return play - hypot(length_mismatch, width_mismatch) / 2.0
    least, reached = pattern_misfit(plate.holes, deck.holes, may_flip == "yes")
    # Between what a motion reaches and what none undercuts there is no answer but to put the parts together.
    if play - reached < 0.0 <= play - least:
        return Unsettled("the slots may just line up: lay the plate on the deck and try the bolts")
    return play - reached


def _drawn(length: float, width: float, spread: float = 0.0, more: tuple[float, ...] = ()) -> Outline:
    holes = [(sx * length / 2, sy * width / 2, 5.4, 0.0, 0.0) for sx in (-1, 1) for sy in (-1, 1)]
    holes += [(x, sy * width / 2, 5.4, 0.0, 0.0) for x in more for sy in (-1, 1)]
    return Outline((), tuple(holes), spread, DRAWING)


UNDRAWN = Outline((), (), 0.0, DRAWING)
SIZES = {"baseplate.hole_diameter": 5.4, "deck_side.hole_diameter": 5.4, "deck_bolt*.major_diameter": (5.0,)}

RULE = Rule(
    question="Do four straight bolts drop through plate and deck at once?",
    needs=(
        "baseplate.outline",
        "deck_side.outline",
        "deck_side.length_mismatch",
        "deck_side.width_mismatch",
        "baseplate.hole_diameter",
        "deck_side.hole_diameter",
        "deck_bolt*.major_diameter",
        "baseplate.may_flip",
    ),
    quantity=quantity,
    measures="play left at the tightest of four bolts, plate pushed to its best place",
    formula="m = (Ø_plate − b)/2 + (Ø_deck − b)/2 − misfit of the two patterns",
    unit="mm",
    hard=AtLeast(Bound("deck_holes.bolts_drop_through.least", 0.0, "ASME Y14.5-2009, appendix B")),
    severity=Severity.DAMAGE,
    shape=Shape.ASKED,
    directions=(+1, +1, 0, 0, +1, +1, -1, 0),
    constants=(Constant("usual_bolt", 5.0, "mm", "ISO 261: M5, the thicker of the two common deck bolts"),),
    published=(
        Published("holes of H let each pattern be off place by H − F in diameter", "ASME Y14.5-2009, appendix B"),
    ),
    caution=(
        "A re-drilled laminate cracks from the hole outwards: keep a new hole 2.5 hole diameters from an old one, and "
        "never drive a bolt in with a hammer."
    ),
    remedy_hint="slot the holes a little, or put an adapter plate between",
    examples=(
        Example(
            "a six-hole plate takes the shorter grid",
            {
                "baseplate.outline": _drawn(63.5, 41.3, 0.0, (22.2,)),
                "deck_side.outline": _drawn(53.95, 41.3),
                "deck_side.length_mismatch": 9.55,
                "deck_side.width_mismatch": 0.0,
                "baseplate.may_flip": "no",
                **SIZES,
            },
            "holds",
            0.4,
            two_numbers="63.5 is not 54.0: comparing the lengths of the grids says no",
        ),
        Example(
            "long grid on short grid, drawn",
            {
                "baseplate.outline": _drawn(63.5, 41.3, 0.1),
                "deck_side.outline": _drawn(54.0, 41.3, 0.1),
                "deck_side.length_mismatch": 9.5,
                "deck_side.width_mismatch": 0.0,
                "baseplate.may_flip": "no",
                **SIZES,
            },
            "fails",
            -4.35,
        ),
        Example(
            "not drawn, grids 0.8 mm apart: exactly on the limit",
            {
                "baseplate.outline": UNDRAWN,
                "deck_side.outline": UNDRAWN,
                "deck_side.length_mismatch": 0.8,
                "deck_side.width_mismatch": 0.0,
                "baseplate.may_flip": "no",
                **SIZES,
            },
            "holds",
            0.0,
        ),
        Example(
            "hole grid of the deck unread",
            {"baseplate.outline": UNDRAWN, "deck_side.outline": UNDRAWN, "baseplate.may_flip": "no", **SIZES},
            "undecided",
        ),
    ),
)
