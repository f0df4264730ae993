"""A light on the receiver's supply draws as much as ten receivers. One short in it takes the throttle along."""

from fitdb.model.rule import Example, OneOf, Rule, Severity


def quantity(feed: str) -> str:
    return feed


RULE = Rule(
    question="Is the light fed by something else than the receiver's supply?",
    needs=("light.fed_from",),
    quantity=quantity,
    measures="what feeds the light",
    formula="word",
    unit="",
    hard=OneOf("light_source.light_has_its_own_feed.words", ("pack", "converter"), "common practice, no source"),
    severity=Severity.INJURY,
    two_numbers_suffice="a word: there is nothing to compare",
    caution="A short in a light on the receiver's supply takes drive and brake with it.",
    remedy_hint="the light on a converter of its own, with its own fuse",
    examples=(
        Example("on a converter", {"light.fed_from": "converter"}, "holds"),
        Example("on the receiver's supply", {"light.fed_from": "auxiliary"}, "fails"),
        Example("not looked at", {}, "undecided"),
    ),
)
