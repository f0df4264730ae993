"""Plug and socket of one form go together without force. That they go together says nothing about volts or polarity."""

from fitdb.model.rule import Example, Rule, Same, Severity


def quantity(plug_form: str, socket_form: str) -> tuple[str, str]:
    return plug_form, socket_form


RULE = Rule(
    question="Are plug and socket of one form?",
    needs=("charger.charge_plug_form", "charge_port.charge_plug_form"),
    quantity=quantity,
    measures="form of the plug, and form of the socket",
    formula="form_plug = form_socket",
    unit="",
    hard=Same("charge_port.form_equal", "common practice, no source"),
    severity=Severity.FIRE,
    caution="A plug that fits is not proof. Meter volts and polarity of every charger before the first charge.",
    remedy_hint="another port, or another plug on the lead of the right charger",
    examples=(
        Example(
            "both 5.5 mm barrels",
            {"charger.charge_plug_form": "barrel_5_5", "charge_port.charge_plug_form": "barrel_5_5"},
            "holds",
        ),
        Example(
            "barrel and three pins",
            {"charger.charge_plug_form": "barrel_5_5", "charge_port.charge_plug_form": "round_three_pin"},
            "fails",
        ),
        Example(
            "one of two barrels",
            {"charger.charge_plug_form": "barrel_5_5|barrel_6_5", "charge_port.charge_plug_form": "barrel_5_5"},
            "undecided",
        ),
        Example("socket unread", {"charger.charge_plug_form": "barrel_5_5"}, "undecided"),
    ),
)
