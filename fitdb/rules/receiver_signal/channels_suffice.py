"""A controller that takes reverse from a second channel, and gets one channel only, never goes backwards, or never
leaves reverse."""

from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity, Shape


def quantity(given: int, wanted: int) -> float:
    return float(given - wanted)


RULE = Rule(
    question="Does the receiver give as many channels as the controller takes?",
    needs=("receiver.signal_channels", "controller.signal_channels_wanted"),
    quantity=quantity,
    measures="channels of the receiver less channels that the controller takes",
    formula="m = n_given − n_wanted",
    unit="",
    hard=AtLeast(Bound("receiver_signal.channels_suffice.least", 0, "common practice, no source")),
    severity=Severity.NUISANCE,
    shape=Shape.STEPPED,
    remedy_hint="set the controller to one channel",
    examples=(
        Example(
            "two given, one wanted", {"receiver.signal_channels": 2, "controller.signal_channels_wanted": 1}, "holds", 1
        ),
        Example(
            "one given, two wanted",
            {"receiver.signal_channels": 1, "controller.signal_channels_wanted": 2},
            "fails",
            -1,
        ),
        Example(
            "exactly on the limit", {"receiver.signal_channels": 1, "controller.signal_channels_wanted": 1}, "holds", 0
        ),
        Example("not counted", {"controller.signal_channels_wanted": 2}, "undecided"),
    ),
)
