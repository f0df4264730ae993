"""A signal of 5 V on an input made for 3.3 V bleeds into the supply of the chip and kills it, at once or next week."""

from fitdb.model.rule import AtMost, Bound, Example, Published, Rule, Severity


def quantity(receiver_side: float, controller_side: float) -> float:
    return receiver_side - controller_side


RULE = Rule(
    question="Does the input bear the level of the signal?",
    needs=("receiver_side.signal_volts", "controller_side.signal_volts"),
    quantity=quantity,
    measures="level that the receiver gives less the level that the input is made for",
    formula="Δ = V_receiver − V_input",
    unit="V",
    hard=AtMost(Bound("receiver_signal.level_is_not_too_high.most", 0.5, "common practice, no source")),
    severity=Severity.DAMAGE,
    published=(Published("an input bears 0.3 to 0.5 V above its own supply", "from memory"),),
    remedy_hint="a level converter between the two",
    examples=(
        Example(
            "3.3 V on 3.3 V", {"receiver_side.signal_volts": 3.3, "controller_side.signal_volts": 3.3}, "holds", 0.5
        ),
        Example(
            "5 V on 3.3 V", {"receiver_side.signal_volts": 5.0, "controller_side.signal_volts": 3.3}, "fails", -1.2
        ),
        Example(
            "exactly on the limit",
            {"receiver_side.signal_volts": 3.5, "controller_side.signal_volts": 3.0},
            "holds",
            0.0,
        ),
        Example("input unread", {"receiver_side.signal_volts": 3.3}, "undecided"),
    ),
)
