"""A nut holds only when the thread passes all of its nylon. A bolt that ends inside the nut lets go on the road, and
the truck with it. Over a wedge this looks at the thin end, where the bolts have least to hold.
"""

from fitdb.formulas.bolt_stack import held_stack, wedge_rise
from fitdb.model.rule import AtLeast, AtMost, Bound, Constant, Example, Rule, Severity


def quantity(
    bolt: float,
    deck: float,
    grips: tuple[float, ...],
    grips_under_heads: tuple[str, ...],
    risers: tuple[float, ...],
    plate: float,
    adapters: tuple[float, ...],
    nuts: tuple[float, ...],
    wedge_angles: tuple[float, ...],
    grid_length: float,
    usual_nut: float,
    thread_past_nut: float,
) -> float:
    stack = held_stack(deck, grips, grips_under_heads, risers, plate, adapters)
    nut = nuts[0] if nuts else usual_nut
    return bolt - (stack - wedge_rise(grid_length, wedge_angles) + nut + thread_past_nut)


STACK = {"truck.grid_length": 63.5, "grip*.thickness": (1.0,), "grip*.under_bolt_heads": ("no",)}

RULE = Rule(
    question="Do the deck bolts pass their nuts with thread to spare?",
    needs=(
        "deck_bolt.length",
        "deck.thickness",
        "grip*.thickness",
        "grip*.under_bolt_heads",
        "riser*.thickness",
        "truck.plate_thickness",
        "grid_adapter*.thickness",
        "deck_nut*.height",
        "wedge*.angle",
        "truck.grid_length",
    ),
    quantity=quantity,
    measures="bolt length left beyond stack, nut and one and a half millimetres of thread",
    formula="s = L − (t_deck + t_grip + Σt_riser + t_plate − (g/2)·tan α + nut + 1.5)",
    unit="mm",
    hard=AtLeast(Bound("deck_bolts.nut_is_fully_on.least", 0.0, "common practice, no source")),
    comfort=AtMost(Bound("deck_bolts.nut_is_fully_on.comfort", 8.0, "common practice, no source")),
    severity=Severity.INJURY,
    constants=(
        Constant("usual_nut", 5.0, "mm", "common practice, no source"),
        Constant("thread_past_nut", 1.5, "mm", "common practice, no source"),
    ),
    caution="The nut's nylon ring must be fully on the thread. New nut after a few uses. Check after 1, 10 and 100 km.",
    remedy_hint="the next longer bolts; a tail of more than 8 mm may strike hanger, motor or box",
    examples=(
        Example(
            "38.1 mm bolt, 11 mm deck, 8 mm riser, 6 mm plate",
            {
                "deck_bolt.length": (37.6, 38.1, 38.6),
                "deck.thickness": (10.7, 11.0, 11.3),
                "riser*.thickness": (8.0,),
                "truck.plate_thickness": (5.8, 6.0, 6.2),
                "deck_nut*.height": (5.0,),
                **STACK,
            },
            "holds",
            6.6,
        ),
        Example(
            "31.75 mm bolt on the same stack",
            {
                "deck_bolt.length": (31.25, 31.75, 32.25),
                "deck.thickness": (10.7, 11.0, 11.3),
                "riser*.thickness": ((7.7, 8.0, 8.3),),
                "truck.plate_thickness": (5.8, 6.0, 6.2),
                **STACK,
            },
            "undecided",
            0.25,
        ),
        Example(
            "25.4 mm bolt through 19 mm of stack",
            {"deck_bolt.length": 25.4, "deck.thickness": 13.0, "truck.plate_thickness": 6.0, **STACK},
            "fails",
            -0.1,
            two_numbers="25.4 is more than 13 + 6: comparing length and stack says yes, but the nut hangs half on",
        ),
        Example(
            "exactly on the limit",
            {"deck_bolt.length": 31.5, "deck.thickness": 12.0, "truck.plate_thickness": 13.0, **STACK},
            "holds",
            0.0,
        ),
        Example("deck unread", {"deck_bolt.length": 31.75, "truck.plate_thickness": 6.0, **STACK}, "undecided"),
    ),
)
