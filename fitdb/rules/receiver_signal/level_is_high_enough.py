"""A signal of 3.3 V on an input made for 5 V is read by some inputs and by others only when it is warm. A throttle
that drops out is a brake that drops out.
"""

from fitdb.model.rule import AtLeast, Bound, Example, Published, Rule, Severity


def quantity(receiver_side: float, controller_side: float) -> float:
    return receiver_side - controller_side


RULE = Rule(
    question="Is the level of the signal high enough for the input?",
    needs=("receiver_side.signal_volts", "controller_side.signal_volts"),
    quantity=quantity,
    measures="level that the receiver gives less the level that the input is made for",
    formula="Δ = V_receiver − V_input",
    unit="V",
    hard=AtLeast(Bound("receiver_signal.level_is_high_enough.least", -0.5, "common practice, no source")),
    severity=Severity.INJURY,
    published=(
        Published("a 5 V input reads high from 2.0 V (TTL) or from 3.5 V, 0.7 of its supply (CMOS)", "from memory"),
    ),
    caution=(
        "Wheels up: move the throttle slowly and watch for gaps. A throttle that drops out is a brake that drops out."
    ),
    remedy_hint="a level converter between the two",
    examples=(
        Example(
            "3.3 V on 3.3 V", {"receiver_side.signal_volts": 3.3, "controller_side.signal_volts": 3.3}, "holds", 0.5
        ),
        Example(
            "3.3 V on 5 V", {"receiver_side.signal_volts": 3.3, "controller_side.signal_volts": 5.0}, "fails", -1.2
        ),
        Example(
            "exactly on the limit",
            {"receiver_side.signal_volts": 4.5, "controller_side.signal_volts": 5.0},
            "holds",
            0.0,
        ),
        Example("input unread", {"receiver_side.signal_volts": 3.3}, "undecided"),
    ),
)
