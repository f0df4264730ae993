"""Above the insert the deck has to stay closed: a thin skin breaks through under a heel, and water then runs down the
thread.
"""

from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity


def quantity(thickness: float, depth: float) -> float:
    return thickness - depth


RULE = Rule(
    question="Is enough deck left above the insert?",
    needs=("deck.thickness", "deck.insert_depth"),
    quantity=quantity,
    measures="thickness of deck or frame less depth of the insert",
    formula="s = t − depth",
    unit="mm",
    hard=AtLeast(Bound("insert_screws.wood_is_left_above_the_insert.least", 2.0, "common practice, no source")),
    severity=Severity.DAMAGE,
    remedy_hint="shorter inserts",
    examples=(
        Example("8 mm insert in 12 mm", {"deck.thickness": (11.8, 12.0, 12.2), "deck.insert_depth": 8.0}, "holds", 2.0),
        Example(
            "10 mm insert in 11 mm",
            {"deck.thickness": (10.8, 11.0, 11.2), "deck.insert_depth": 10.0},
            "fails",
            -1.0,
            two_numbers="10 is less than 11: the insert does not come through",
        ),
        Example("exactly on the limit", {"deck.thickness": 10.0, "deck.insert_depth": 8.0}, "holds", 0.0),
        Example("thickness unread", {"deck.insert_depth": 8.0}, "undecided"),
    ),
)
