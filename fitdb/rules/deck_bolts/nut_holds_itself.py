"""Every stone on the road shakes the bolts of the trucks. A nut with a nylon ring, or one of metal that is squeezed so
that it grips the thread, stays where it is; a plain nut works loose, and the truck comes off.
"""

from fitdb.model.rule import Example, OneOf, Rule, Severity


def quantity(locking: str) -> str:
    return locking


RULE = Rule(
    question="Do the nuts of the deck bolts hold by themselves?",
    needs=("deck_nut.locking",),
    quantity=quantity,
    measures="what keeps the nut from turning by itself",
    formula="word",
    unit="",
    hard=OneOf("deck_bolts.nut_holds_itself.words", ("nylon_ring", "all_metal"), "common practice, no source"),
    severity=Severity.INJURY,
    caution=(
        "The nut's nylon ring must be fully on the thread. New nut after a few uses: it has to take a spanner to turn"
        " it. Check after 1, 10 and 100 km."
    ),
    remedy_hint="nuts with a nylon ring, of the bolts' own thread; threadlocker on a plain nut is for the way home",
    two_numbers_suffice="a word that is seen; no sizes are compared",
    examples=(
        Example("nylon ring", {"deck_nut.locking": "nylon_ring"}, "holds"),
        Example("squeezed metal nut", {"deck_nut.locking": "all_metal"}, "holds"),
        Example("plain nut", {"deck_nut.locking": "none"}, "fails"),
        Example("nut that was not looked at", {}, "undecided"),
    ),
)
