"""A receiver that gets more volts than it bears dies, and its last signal may be any."""

from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity


def quantity(most: float, supply: float) -> float:
    return most - supply


RULE = Rule(
    question="Does the receiver bear the volts that it gets?",
    needs=("receiver.supply_most", "supply.auxiliary_volts"),
    quantity=quantity,
    measures="most volts that the receiver bears less the volts that feed it",
    formula="m = V_most − V_aux",
    unit="V",
    hard=AtLeast(Bound("receiver_supply.supply_is_not_too_high.least", 0.0, "common practice, no source")),
    severity=Severity.INJURY,
    caution="A receiver that dies in motion takes drive and brake with it, or leaves the throttle where it was.",
    remedy_hint="a regulator from the pack to the receiver, the controller's plus cut",
    examples=(
        Example(
            "5 V for a receiver to 6 V",
            {"receiver.supply_most": 6.0, "supply.auxiliary_volts": (4.9, 5.0, 5.1)},
            "holds",
            1.0,
        ),
        Example(
            "5 V for a receiver to 3.5 V", {"receiver.supply_most": 3.5, "supply.auxiliary_volts": 5.0}, "fails", -1.5
        ),
        Example("exactly on the limit", {"receiver.supply_most": 5.0, "supply.auxiliary_volts": 5.0}, "holds", 0.0),
        Example("receiver unread", {"supply.auxiliary_volts": 5.0}, "undecided"),
    ),
)
