"""Some serial lines rest low, some rest high. Read the wrong way round the signal is noise, and noise may be
throttle.
"""

from fitdb.model.rule import Example, Rule, Same, Severity


def quantity(receiver_side: str, controller_side: str) -> tuple[str, ...]:
    return (receiver_side, controller_side)


RULE = Rule(
    question="Is the signal the same way up on both sides?",
    needs=("receiver_side.signal_polarity", "controller_side.signal_polarity"),
    quantity=quantity,
    measures="polarity of the signal on both sides",
    formula="words",
    unit="",
    hard=Same("receiver_signal.polarities_agree.words", "common practice, no source"),
    severity=Severity.INJURY,
    caution="Wheels up for the first try. Somebody else must not hold the hand unit.",
    remedy_hint="set the input of the controller, or a converter between the two",
    examples=(
        Example(
            "both plain",
            {"receiver_side.signal_polarity": "plain", "controller_side.signal_polarity": "plain"},
            "holds",
        ),
        Example(
            "inverted on plain",
            {"receiver_side.signal_polarity": "inverted", "controller_side.signal_polarity": "plain"},
            "fails",
        ),
        Example("receiver unread", {"controller_side.signal_polarity": "plain"}, "undecided"),
    ),
)
