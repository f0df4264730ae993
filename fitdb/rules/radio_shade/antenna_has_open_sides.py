"""Metal and carbon shut an antenna in. With conducting walls on four of its six sides or more the link breaks when a
hand or a body comes in between; led out of the box it does not.
"""

from fitdb.formulas.radio_shade import shaded_sides
from fitdb.model.rule import AtMost, Bound, Example, Rule, Severity

RULE = Rule(
    question="Has the antenna three open sides?",
    needs=("receiver.antenna", "enclosure.conductive", "deck.conductive", "enclosure.deck_sides"),
    quantity=shaded_sides,
    measures="sides of the antenna, of six, behind metal or carbon",
    formula="n = (6 − n_deck)·[box conducts] + n_deck·[deck conducts], 0 where the antenna is led out",
    unit="",
    hard=AtMost(Bound("radio_shade.antenna_has_open_sides.most", 3, "common practice, no source")),
    severity=Severity.INJURY,
    caution=(
        "Try the range: 20 m away, hand behind the body, wheels up. On this build the motor is the brake, and "
        "a lost link "
        "takes it away. Bare wire or worn sleeve against a deck or lid that conducts is a short circuit."
    ),
    remedy_hint="the antenna led out of the box",
    examples=(
        Example(
            "plastic box under carbon",
            {
                "receiver.antenna": "inside",
                "enclosure.conductive": "no",
                "deck.conductive": "yes",
                "enclosure.deck_sides": 1,
            },
            "holds",
            2.0,
        ),
        Example(
            "alloy box under wood",
            {
                "receiver.antenna": "inside",
                "enclosure.conductive": "yes",
                "deck.conductive": "no",
                "enclosure.deck_sides": 1,
            },
            "fails",
            -2.0,
        ),
        Example(
            "pocket of a carbon deck with a plastic lid",
            {
                "receiver.antenna": "inside",
                "enclosure.conductive": "no",
                "deck.conductive": "yes",
                "enclosure.deck_sides": 5,
            },
            "fails",
            -2.0,
            two_numbers="the lid is plastic: looking at the lid alone says yes",
        ),
        Example(
            "alloy box, antenna led out",
            {
                "receiver.antenna": "on_a_lead",
                "enclosure.conductive": "yes",
                "deck.conductive": "yes",
                "enclosure.deck_sides": 1,
            },
            "holds",
            3.0,
        ),
        Example(
            "exactly on the limit: half of the walls conduct",
            {
                "receiver.antenna": "inside",
                "enclosure.conductive": "yes",
                "deck.conductive": "no",
                "enclosure.deck_sides": 3,
            },
            "holds",
            0.0,
        ),
        Example(
            "nobody knows whether the box conducts",
            {"receiver.antenna": "inside", "deck.conductive": "no", "enclosure.deck_sides": 1},
            "undecided",
        ),
    ),
)
