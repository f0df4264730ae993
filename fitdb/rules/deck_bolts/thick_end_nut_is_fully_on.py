"""Over a wedge the two pairs of bolts hold stacks of two heights. The pair at the thick end wants bolts some six
millimetres longer, and is the one that gets forgotten.
"""

from fitdb.formulas.bolt_stack import held_stack, wedge_rise
from fitdb.model.rule import AtLeast, AtMost, Bound, Constant, Example, Rule, Severity


def quantity(
    bolt: float,
    thick_end_bolts: tuple[float, ...],
    deck: float,
    grips: tuple[float, ...],
    grips_under_heads: tuple[str, ...],
    risers: tuple[float, ...],
    plate: float,
    adapters: tuple[float, ...],
    nuts: tuple[float, ...],
    wedge_angle: float,
    grid_length: float,
    usual_nut: float,
    thread_past_nut: float,
) -> float:
    """As at the thin end, with the wedge's rise added; without bolts of its own the thick end gets the common ones."""
    length = thick_end_bolts[0] if thick_end_bolts else bolt
    stack = held_stack(deck, grips, grips_under_heads, risers, plate, adapters)
    nut = nuts[0] if nuts else usual_nut
    return length - (stack + wedge_rise(grid_length, (wedge_angle,)) + nut + thread_past_nut)


STACK = {"riser*.thickness": (8.0,), "truck.plate_thickness": 6.0, "truck.grid_length": 63.5, "wedge.angle": 10.0}

RULE = Rule(
    question="Do the bolts at the thick end of the wedge pass their nuts with thread to spare?",
    needs=(
        "deck_bolt.length",
        "thick_end_bolt*.length",
        "deck.thickness",
        "grip*.thickness",
        "grip*.under_bolt_heads",
        "riser*.thickness",
        "truck.plate_thickness",
        "grid_adapter*.thickness",
        "deck_nut*.height",
        "wedge.angle",
        "truck.grid_length",
    ),
    quantity=quantity,
    measures="bolt length left at the thick end, beyond stack, nut and one and a half millimetres of thread",
    formula="s = L − (t_deck + t_grip + Σt_riser + (g/2)·tan α + t_plate + nut + 1.5)",
    unit="mm",
    hard=AtLeast(Bound("deck_bolts.thick_end_nut_is_fully_on.least", 0.0, "common practice, no source")),
    comfort=AtMost(Bound("deck_bolts.thick_end_nut_is_fully_on.comfort", 8.0, "common practice, no source")),
    severity=Severity.INJURY,
    constants=(
        Constant("usual_nut", 5.0, "mm", "common practice, no source"),
        Constant("thread_past_nut", 1.5, "mm", "common practice, no source"),
    ),
    caution="Two lengths of bolt go with a wedge: the longer pair at its thick end.",
    remedy_hint="two longer bolts for the thick end",
    examples=(
        Example(
            "44.45 mm bolts at the thick end of a 10° wedge",
            {"deck_bolt.length": 31.75, "thick_end_bolt*.length": (44.45,), "deck.thickness": 11.0, **STACK},
            "holds",
            7.35,
        ),
        Example(
            "the bolts of the thin end used at the thick end",
            {"deck_bolt.length": 31.75, "deck.thickness": 11.0, **STACK},
            "fails",
            -5.35,
            two_numbers="31.75 is more than deck, wedge and plate together (25): comparing two lengths says yes",
        ),
        Example(
            "exactly on the limit: a wedge of no angle",
            {"deck_bolt.length": 31.5, "deck.thickness": 11.0, **STACK, "wedge.angle": 0.0},
            "holds",
            0.0,
        ),
        Example(
            "deck unread",
            {"deck_bolt.length": 31.75, **STACK},
            "undecided",
        ),
    ),
)
