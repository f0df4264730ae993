"""Two supplies on one receiver push current into each other, and when one fails it pulls the other down. Only one may
feed: at every other one the plus of its signal plug is cut or pulled.
"""

from fitdb.model.rule import AtMost, Bound, Example, Rule, Severity


def quantity(controller: str, others: tuple[str, ...]) -> float:
    return float(sum(feeds == "yes" for feeds in (controller, *others)))


RULE = Rule(
    question="Does only one supply feed the receiver?",
    needs=("controller.feeds_receiver", "other_feed*.feeds_receiver"),
    quantity=quantity,
    measures="controllers and regulators whose plus reaches the receiver",
    formula="n",
    unit="",
    hard=AtMost(Bound("receiver_supply.one_supply_feeds.most", 1, "common practice, no source")),
    severity=Severity.INJURY,
    caution="Pull the plus pin of every other plug and cover it. Meter it: pack joined, only one plug has volts.",
    remedy_hint="the plus of the second plug pulled",
    examples=(
        Example(
            "one of two, exactly on the limit",
            {"controller.feeds_receiver": "yes", "other_feed*.feeds_receiver": ("no",)},
            "holds",
            0,
        ),
        Example(
            "both",
            {"controller.feeds_receiver": "yes", "other_feed*.feeds_receiver": ("yes",)},
            "fails",
            -1,
            two_numbers="5 V and 5 V agree: comparing two numbers says yes",
        ),
        Example("one controller alone, not looked at", {"controller.feeds_receiver": "yes|no"}, "holds", 0),
        Example(
            "second one not looked at",
            {"controller.feeds_receiver": "yes", "other_feed*.feeds_receiver": ("yes|no",)},
            "undecided",
        ),
        Example("first one unread", {"other_feed*.feeds_receiver": ("yes",)}, "undecided"),
    ),
)
