"""A receiver with too few volts starts anew when the throttle is pressed, and for that second nobody steers the
motors.
"""

from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity


def quantity(supply: float, least: float) -> float:
    return supply - least


RULE = Rule(
    question="Does the receiver get enough volts?",
    needs=("supply.auxiliary_volts", "receiver.supply_least"),
    quantity=quantity,
    measures="volts that feed the receiver less the least that it wants",
    formula="m = V_aux − V_least",
    unit="V",
    hard=AtLeast(Bound("receiver_supply.supply_is_high_enough.least", 0.0, "common practice, no source")),
    severity=Severity.INJURY,
    caution=(
        "A receiver that browns out is a link that is gone: the board coasts, or runs away, and the motor no "
        "longer brakes."
    ),
    remedy_hint="a regulator from the pack to the receiver, the controller's plus cut",
    examples=(
        Example(
            "5 V for a receiver from 4.5 V",
            {"supply.auxiliary_volts": (4.9, 5.0, 5.1), "receiver.supply_least": 4.5},
            "holds",
            0.5,
        ),
        Example(
            "3.3 V for a receiver from 4.5 V",
            {"supply.auxiliary_volts": 3.3, "receiver.supply_least": 4.5},
            "fails",
            -1.2,
        ),
        Example("exactly on the limit", {"supply.auxiliary_volts": 4.5, "receiver.supply_least": 4.5}, "holds", 0.0),
        Example(
            "4.8 V read by a cheap meter",
            {"supply.auxiliary_volts": (4.7, 4.8, 4.9), "receiver.supply_least": 4.75},
            "undecided",
            0.05,
            two_numbers="4.8 is more than 4.75: comparing two numbers says yes",
        ),
        Example("supply unread", {"receiver.supply_least": 4.5}, "undecided"),
    ),
)
