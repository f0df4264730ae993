"""A controller without power that hangs on the link of one with power is fed through its signal pins, and dies. Both
have to hang on one switch.
"""

from fitdb.model.rule import Example, OneOf, Rule, Severity


def quantity(one: str, other: str) -> tuple[str, ...]:
    return (one, other)


RULE = Rule(
    question="Are both controllers switched on and off together?",
    needs=("controller.own_switch", "other_controller.own_switch"),
    quantity=quantity,
    measures="whether either has a switch of its own",
    formula="words",
    unit="",
    hard=OneOf("controller_pair.both_are_powered_together.words", ("no",), "common practice, no source"),
    severity=Severity.DAMAGE,
    two_numbers_suffice="words: there is nothing to compare",
    caution="Never power one alone while the link is joined.",
    remedy_hint="one switch before both",
    examples=(
        Example(
            "one switch before both", {"controller.own_switch": "no", "other_controller.own_switch": "no"}, "holds"
        ),
        Example("a switch on one", {"controller.own_switch": "no", "other_controller.own_switch": "yes"}, "fails"),
        Example("one unread", {"controller.own_switch": "no"}, "undecided"),
    ),
)
