"""A nut of another thread may start on the axle, bind after a few turns and strip under the first load.

M8 (8.00 mm, pitch 1.25) and 5/16-24 (7.94 mm, pitch 1.06) are the pair that is always mixed up.
"""

from fitdb.model.rule import Example, Published, Rule, Same, Severity


def quantity(axle_thread: str, nut_thread: str) -> tuple[str, str]:
    return axle_thread, nut_thread


RULE = Rule(
    question="Do axle and nut have the same thread?",
    needs=("hanger.thread", "axle_nut.thread"),
    quantity=quantity,
    measures="the names of both threads",
    formula="thread = thread",
    unit="",
    hard=Same("axle_nut.threads_are_the_same.words", "common practice, no source"),
    severity=Severity.INJURY,
    published=(Published("M8: pitch 1.25 mm; 5/16-24: 7.9375 mm, pitch 1.058 mm", "ISO 261; ASME B1.1"),),
    caution=(
        "The nut's nylon ring must be fully on the thread. New nut after a few uses. Try the nut by finger "
        "first: it must run three turns freely. Check after 1, 10 and 100 km."
    ),
    examples=(
        Example("M8 on M8", {"hanger.thread": "m8", "axle_nut.thread": "m8"}, "holds"),
        Example(
            "M8 nut on a 5/16-24 axle",
            {"hanger.thread": "unf_5_16_24", "axle_nut.thread": "m8"},
            "fails",
            two_numbers="7.94 and 8.00 mm: the sizes agree to a tenth, and the nut starts",
        ),
        Example(
            "the axle is one of the two", {"hanger.thread": "m8|unf_5_16_24", "axle_nut.thread": "m8"}, "undecided"
        ),
        Example("axle unread", {"axle_nut.thread": "m8"}, "undecided"),
    ),
)
