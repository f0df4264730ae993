"""A supply that runs near its rating sags when it is hot, and the receiver starts anew. Seven tenths of the rating is
what lasts.
"""

from fitdb.model.rule import AtMost, Bound, Example, Rule, Severity


def quantity(drawn: float, given: float) -> float:
    return drawn / given


RULE = Rule(
    question="Does the receiver leave the supply a third of its current?",
    needs=("receiver.supply_current", "supply.auxiliary_current"),
    quantity=quantity,
    measures="current that the receiver draws over the current that the supply gives",
    formula="k = I_receiver / I_aux",
    unit="",
    hard=AtMost(Bound("receiver_supply.supply_keeps_a_reserve.most", 0.7, "common practice, no source")),
    severity=Severity.INJURY,
    caution=(
        "A receiver that browns out is a link that is gone: the board coasts, or runs away, and the motor no "
        "longer brakes."
    ),
    remedy_hint="a regulator from the pack to the receiver, the controller's plus cut",
    examples=(
        Example("60 mA of 1 A", {"receiver.supply_current": 0.06, "supply.auxiliary_current": 1.0}, "holds", 0.64),
        Example(
            "0.4 A of 0.5 A",
            {"receiver.supply_current": 0.4, "supply.auxiliary_current": 0.5},
            "fails",
            -0.1,
            two_numbers="0.4 is less than 0.5: comparing two numbers says yes",
        ),
        Example(
            "exactly on the limit", {"receiver.supply_current": 0.7, "supply.auxiliary_current": 1.0}, "holds", 0.0
        ),
        Example("supply unread", {"receiver.supply_current": 0.06}, "undecided"),
    ),
)
