"""A screw of another thread runs in for two turns, jams and takes the insert's thread with it."""

from fitdb.model.rule import Example, Rule, Same, Severity


def quantity(screw: str, insert: str) -> tuple[str, str]:
    return screw, insert


RULE = Rule(
    question="Have screw and insert the same thread?",
    needs=("box_screw.thread", "deck.thread"),
    quantity=quantity,
    measures="thread of the screw and of the insert",
    formula="equal",
    unit="",
    hard=Same("insert_screws.thread_matches_the_insert", "ISO 261 and ASME B1.1"),
    severity=Severity.DAMAGE,
    caution="Try three turns by finger before any tool.",
    remedy_hint="screws of the insert's thread",
    examples=(
        Example("M4 in M4", {"box_screw.thread": "m4", "deck.thread": "m4"}, "holds"),
        Example("M4 in number 8", {"box_screw.thread": "m4", "deck.thread": "unc_8_32"}, "fails"),
        Example("caliper says 4.1 mm", {"box_screw.thread": "m4", "deck.thread": "m4|unc_8_32"}, "undecided"),
        Example("insert unread", {"box_screw.thread": "m4"}, "undecided"),
    ),
)
