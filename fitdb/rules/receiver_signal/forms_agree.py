"""Servo pulse, serial line, bus and analogue volts all come through one kind of three-pin plug. A controller that
waits for another form sees no throttle, or a full one.
"""

from fitdb.model.rule import Example, Rule, Same, Severity


def quantity(receiver_side: str, controller_side: str) -> tuple[str, ...]:
    return (receiver_side, controller_side)


RULE = Rule(
    question="Does the controller read the form of signal that the receiver gives?",
    needs=("receiver_side.signal_form", "controller_side.signal_form"),
    quantity=quantity,
    measures="form of the signal on both sides",
    formula="words",
    unit="",
    hard=Same("receiver_signal.forms_agree.words", "common practice, no source"),
    severity=Severity.INJURY,
    caution="Wheels up for the first try. Somebody else must not hold the hand unit.",
    remedy_hint="set the input of the controller, or a converter between the two",
    examples=(
        Example(
            "servo pulse on servo pulse",
            {"receiver_side.signal_form": "servo_pulse", "controller_side.signal_form": "servo_pulse"},
            "holds",
        ),
        Example(
            "serial on servo pulse",
            {"receiver_side.signal_form": "serial", "controller_side.signal_form": "servo_pulse"},
            "fails",
            two_numbers="three pins at 2.54 mm and 3.3 V on both sides: comparing numbers says yes",
        ),
        Example("receiver unread", {"controller_side.signal_form": "servo_pulse"}, "undecided"),
    ),
)
