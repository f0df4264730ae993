"""A barrel plug may carry plus in the middle or outside; both are sold. Reversed, the charger pushes a full short
through the port the moment it is plugged in. Only a meter tells.
"""

from fitdb.model.rule import Example, Rule, Same, Severity


def quantity(plug_polarity: str, socket_polarity: str) -> tuple[str, str]:
    return plug_polarity, socket_polarity


RULE = Rule(
    question="Is plus on the same contact?",
    needs=("charger.polarity", "charge_port.polarity"),
    quantity=quantity,
    measures="contact that is plus at the plug, and at the socket",
    formula="plus_plug = plus_socket",
    unit="",
    hard=Same("charge_port.polarity_equal", "common practice, no source"),
    severity=Severity.FIRE,
    caution=(
        "A plug that fits is not proof. Meter plus and minus on both before the first charge; a reversed plug is a "
        "short of the whole pack."
    ),
    examples=(
        Example(
            "both centre plus",
            {"charger.polarity": "centre_plus", "charge_port.polarity": "centre_plus"},
            "holds",
        ),
        Example(
            "centre minus on centre plus",
            {"charger.polarity": "centre_minus", "charge_port.polarity": "centre_plus"},
            "fails",
            two_numbers="form and pin are equal: the sizes agree",
        ),
        Example(
            "port not metered",
            {"charger.polarity": "centre_plus", "charge_port.polarity": "centre_plus|centre_minus"},
            "undecided",
        ),
        Example("port unread", {"charger.polarity": "centre_plus"}, "undecided"),
    ),
)
