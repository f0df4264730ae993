"""Wheels shake their nuts loose. A nylon ring holds; a plain nut does not, with threadlocker only for the way home."""

from fitdb.model.rule import Example, OneOf, Rule, Severity


def quantity(nylon: str) -> str:
    return nylon


RULE = Rule(
    question="Does the nut hold itself with a nylon ring?",
    needs=("axle_nut.nylon",),
    quantity=quantity,
    measures="whether the nut has a nylon ring",
    formula="word",
    unit="",
    hard=OneOf("axle_nut.nut_holds_itself.words", ("yes",), "common practice, no source"),
    severity=Severity.INJURY,
    caution=(
        "The nut's nylon ring must be fully on the thread, or the wheel comes off. New nut after a few uses. Check "
        "after 1, 10 and 100 km."
    ),
    examples=(
        Example("nylon nut", {"axle_nut.nylon": "yes"}, "holds"),
        Example("plain low nut", {"axle_nut.nylon": "no"}, "fails"),
        Example("not looked at", {}, "undecided"),
    ),
)
