"""The small supply inside a controller gives so many amperes. Asked for more it breaks down, the receiver with it."""

from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity


def quantity(given: float, drawn: float) -> float:
    return given - drawn


RULE = Rule(
    question="Does the supply bear the receiver?",
    needs=("supply.auxiliary_current", "receiver.supply_current"),
    quantity=quantity,
    measures="current that the supply gives less the current that the receiver draws",
    formula="m = I_aux − I_receiver",
    unit="A",
    hard=AtLeast(Bound("receiver_supply.supply_bears_the_receiver.least", 0.0, "common practice, no source")),
    severity=Severity.INJURY,
    caution=(
        "A receiver that browns out is a link that is gone: the board coasts, or runs away, and the motor no "
        "longer brakes."
    ),
    remedy_hint="a regulator from the pack to the receiver, the controller's plus cut",
    examples=(
        Example("60 mA of 1 A", {"supply.auxiliary_current": 1.0, "receiver.supply_current": 0.06}, "holds", 0.94),
        Example("0.5 A of 0.3 A", {"supply.auxiliary_current": 0.3, "receiver.supply_current": 0.5}, "fails", -0.2),
        Example(
            "exactly on the limit", {"supply.auxiliary_current": 0.5, "receiver.supply_current": 0.5}, "holds", 0.0
        ),
        Example("supply unread", {"receiver.supply_current": 0.06}, "undecided"),
    ),
)
