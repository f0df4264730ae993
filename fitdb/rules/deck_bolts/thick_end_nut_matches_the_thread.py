"""The two longer bolts at the thick end of a wedge are often bought apart from the others, and with another thread. A
nut of the other bolts then goes on them for two turns and binds, or goes on loosely and strips.
"""

from fitdb.model.rule import Example, Rule, Same, Severity


def quantity(bolt: str, nut: str) -> tuple[str, str]:
    return bolt, nut


RULE = Rule(
    question="Have the longer bolts at the thick end the same thread as their nuts?",
    needs=("thick_end_bolt.thread", "deck_nut.thread"),
    quantity=quantity,
    measures="thread of the bolts at the thick end of the wedge, and of the nuts",
    formula="thread_bolt = thread_nut",
    unit="",
    hard=Same(
        "deck_bolts.thick_end_nut_matches_the_thread.same", "ISO 261 and ASME B1.1: diameter and pitch both agree"
    ),
    severity=Severity.INJURY,
    caution="Spin the nut on by finger for three turns; if it stops before, it is the wrong one.",
    remedy_hint="longer bolts of the same thread as the others, or two nuts of the longer bolts' own thread",
    two_numbers_suffice="a thread is a name; the names agree or they do not",
    examples=(
        Example("M5 and M5", {"thick_end_bolt.thread": "m5", "deck_nut.thread": "m5"}, "holds"),
        Example(
            "M5 nuts for all, number 10 bolts bought for the thick end",
            {"thick_end_bolt.thread": "unf_10_32", "deck_nut.thread": "m5"},
            "fails",
            two_numbers="4.83 and 5.00 mm: the sizes agree to a fifth of a millimetre, and the nut starts",
        ),
        Example("one of two", {"thick_end_bolt.thread": "m5|unf_10_32", "deck_nut.thread": "m5"}, "undecided"),
        Example("nut unread", {"thick_end_bolt.thread": "m5"}, "undecided"),
    ),
)
