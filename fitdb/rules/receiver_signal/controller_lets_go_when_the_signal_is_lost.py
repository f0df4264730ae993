"""A wire that works loose or a receiver that stops must leave the motors coasting or braking. A controller that holds
its last value runs on with the throttle that was pressed last.
"""

from fitdb.model.rule import Example, OneOf, Rule, Severity


def quantity(on_loss: str) -> str:
    return on_loss


RULE = Rule(
    question="Does the controller let go of the motors when its signal is lost?",
    needs=("controller.on_signal_loss",),
    quantity=quantity,
    measures="what the controller does when its signal is lost, as tried on the bench",
    formula="word",
    unit="",
    hard=OneOf(
        "receiver_signal.controller_lets_go_when_the_signal_is_lost.words",
        ("coast", "brake"),
        "common practice, no source",
    ),
    severity=Severity.INJURY,
    caution=(
        "Wheels up on a firm stand: press the throttle, switch the hand unit off, watch; then pull the signal "
        "plug and watch "
        "again. Never ride before that was tried."
    ),
    examples=(
        Example("coasts", {"controller.on_signal_loss": "coast"}, "holds"),
        Example("holds its last value", {"controller.on_signal_loss": "holds_last_value"}, "fails"),
        Example("nobody tried it", {}, "undecided"),
    ),
)
