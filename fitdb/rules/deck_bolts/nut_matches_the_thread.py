"""M5 and the number 10 inch bolt look alike and differ by a fifth of a millimetre. A nut of the other thread goes on
two turns and binds, or goes on loosely and strips.
"""

from fitdb.model.rule import Example, Rule, Same, Severity


def quantity(bolt: str, nut: str) -> tuple[str, str]:
    return bolt, nut


RULE = Rule(
    question="Have bolt and nut the same thread?",
    needs=("deck_bolt.thread", "deck_nut.thread"),
    quantity=quantity,
    measures="thread of the bolt and of the nut",
    formula="thread_bolt = thread_nut",
    unit="",
    hard=Same("deck_bolts.nut_matches_the_thread.same", "ISO 261 and ASME B1.1: diameter and pitch both agree"),
    severity=Severity.INJURY,
    caution="Spin the nut on by finger for three turns; if it stops before, it is the wrong one.",
    two_numbers_suffice="a thread is a name; the names agree or they do not",
    examples=(
        Example("M5 and M5", {"deck_bolt.thread": "m5", "deck_nut.thread": "m5"}, "holds"),
        Example("number 10 bolt, M5 nut", {"deck_bolt.thread": "unf_10_32", "deck_nut.thread": "m5"}, "fails"),
        Example("one of two", {"deck_bolt.thread": "m5|unf_10_32", "deck_nut.thread": "m5"}, "undecided"),
        Example("nut unread", {"deck_bolt.thread": "m5"}, "undecided"),
    ),
)
