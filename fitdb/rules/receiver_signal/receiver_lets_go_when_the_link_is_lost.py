"""When the hand unit falls silent the receiver has to stop its signal or put it to neutral, and so does whatever
stands between it and the controller. One that holds the last value runs away with the throttle that was pressed last.
"""

from fitdb.model.rule import Example, OneOf, Rule, Severity


def quantity(receiver: str, converters: tuple[str, ...]) -> tuple[str, ...]:
    return (receiver, *converters)


RULE = Rule(
    question="Does the receiver let go of the throttle when the link is lost?",
    needs=("receiver.signal_loss_output", "signal_converter*.signal_loss_output"),
    quantity=quantity,
    measures="what receiver and converter put out when the link is lost, as tried on the bench",
    formula="words",
    unit="",
    hard=OneOf(
        "receiver_signal.receiver_lets_go_when_the_link_is_lost.words",
        ("no_pulse", "neutral"),
        "common practice, no source",
    ),
    severity=Severity.INJURY,
    caution=(
        "Wheels up on a firm stand: press the throttle, switch the hand unit off, watch. The wheels have to "
        "coast or brake "
        "within a second. Never ride before that was tried."
    ),
    examples=(
        Example("stops its pulses", {"receiver.signal_loss_output": "no_pulse"}, "holds"),
        Example("holds the last value", {"receiver.signal_loss_output": "holds_last_value"}, "fails"),
        Example(
            "a converter that holds the last value",
            {
                "receiver.signal_loss_output": "no_pulse",
                "signal_converter*.signal_loss_output": ("holds_last_value",),
            },
            "fails",
            two_numbers="the receiver's sheet says no pulse: reading one sheet says yes",
        ),
        Example("nobody tried it", {}, "undecided"),
    ),
)
