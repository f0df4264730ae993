"""A barrel of 5.5 mm comes with a middle pin of 2.1 or of 2.5 mm. The thick pin does not go in; the thin one goes in,
sits loosely in a socket for the thick one, and arcs while it charges.
"""

from fitdb.model.rule import NOTHING_TO_GUARD, Between, Bound, Example, NothingToGuard, Rule, Severity

BARRELS = ("barrel_5_5", "barrel_6_5")


def quantity(plug_pin: float, socket_pin: float, plug_form: str, socket_form: str) -> float | NothingToGuard:
    if plug_form not in BARRELS or socket_form not in BARRELS:
        return NOTHING_TO_GUARD
    return plug_pin - socket_pin


RULE = Rule(
    question="Is the middle pin of the same diameter?",
    needs=(
        "charger.pin_diameter",
        "charge_port.pin_diameter",
        "charger.charge_plug_form",
        "charge_port.charge_plug_form",
    ),
    quantity=quantity,
    measures="pin for which the plug is made, less pin of the socket (barrel plugs alone have one)",
    formula="d = Ø_plug − Ø_socket",
    unit="mm",
    hard=Between(
        Bound("charge_port.pin_diameter_equal.least", -0.25, "common practice, no source"),
        Bound("charge_port.pin_diameter_equal.most", 0.25, "common practice, no source"),
    ),
    severity=Severity.FIRE,
    caution="A loose charge plug arcs and gets hot. Charge while awake and present.",
    remedy_hint="another port, or another plug on the lead of the right charger",
    examples=(
        Example(
            "both 2.1 mm",
            {
                "charger.pin_diameter": (2.05, 2.1, 2.15),
                "charge_port.pin_diameter": (2.05, 2.1, 2.15),
                "charger.charge_plug_form": "barrel_5_5",
                "charge_port.charge_plug_form": "barrel_5_5",
            },
            "holds",
            0.25,
        ),
        Example(
            "a plug for 2.5 mm on a pin of 2.1 mm",
            {
                "charger.pin_diameter": (2.45, 2.5, 2.55),
                "charge_port.pin_diameter": (2.05, 2.1, 2.15),
                "charger.charge_plug_form": "barrel_5_5",
                "charge_port.charge_plug_form": "barrel_5_5",
            },
            "fails",
            -0.15,
            two_numbers="both are 5.5 mm outside: the sizes on the label agree, and the plug goes in",
        ),
        Example(
            "exactly on the limit",
            {
                "charger.pin_diameter": 2.25,
                "charge_port.pin_diameter": 2.0,
                "charger.charge_plug_form": "barrel_5_5",
                "charge_port.charge_plug_form": "barrel_5_5",
            },
            "holds",
            0.0,
        ),
        Example(
            "three pins",
            {
                "charger.pin_diameter": 2.0,
                "charge_port.pin_diameter": 1.0,
                "charger.charge_plug_form": "round_three_pin",
                "charge_port.charge_plug_form": "round_three_pin",
            },
            "excused",
        ),
        Example(
            "socket unread",
            {
                "charger.pin_diameter": 2.1,
                "charger.charge_plug_form": "barrel_5_5",
                "charge_port.charge_plug_form": "barrel_5_5",
            },
            "undecided",
        ),
    ),
)
