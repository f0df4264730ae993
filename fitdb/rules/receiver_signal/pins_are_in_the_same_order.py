"""Signal, plus and minus lie in one order on this plug and in another on that. Plus on the signal pin kills the
receiver or the input. An order that was not metered stays open.
"""

from fitdb.model.rule import Example, Rule, Same, Severity


def quantity(receiver_side: str, controller_side: str) -> tuple[str, ...]:
    return (receiver_side, controller_side)


RULE = Rule(
    question="Do the pins of receiver and controller come in the same order?",
    needs=("receiver_side.pin_order", "controller_side.pin_order"),
    quantity=quantity,
    measures="order of the pins, metered, on both sides",
    formula="words",
    unit="",
    hard=Same("receiver_signal.pins_are_in_the_same_order.words", "common practice, no source"),
    severity=Severity.DAMAGE,
    caution="A plug that mates is not a plug that matches. Meter each pin before it is joined.",
    remedy_hint="a converter or lead that swaps the pins, metered on both sides",
    examples=(
        Example(
            "both metered and alike",
            {"receiver_side.pin_order": "signal_plus_minus", "controller_side.pin_order": "signal_plus_minus"},
            "holds",
        ),
        Example(
            "plus first",
            {"receiver_side.pin_order": "plus_signal_minus", "controller_side.pin_order": "signal_plus_minus"},
            "fails",
            two_numbers="three pins at 2.54 mm on both sides: comparing shells says yes",
        ),
        Example("receiver not metered", {"controller_side.pin_order": "signal_plus_minus"}, "undecided"),
    ),
)
