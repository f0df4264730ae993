"""The socket in the wall is the smallest contact on the way to the pack, and it cannot be seen while it gets hot."""

from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity


def quantity(plug_current: float, charge_current: float) -> float:
    return plug_current - charge_current


RULE = Rule(
    question="Does the socket bear the charging current?",
    needs=("charge_port.plug_current", "charger.charge_current"),
    quantity=quantity,
    measures="current that the socket bears, less the current of the charger",
    formula="m = I_socket − I_charger",
    unit="A",
    hard=AtLeast(Bound("charge_port.socket_bears_the_current.least", 0.0, "common practice, no source")),
    severity=Severity.FIRE,
    caution="Charge while awake and present, on a surface that does not burn, away from the way out.",
    remedy_hint="another port, or a lower charging current",
    examples=(
        Example("5 A socket, 4 A", {"charge_port.plug_current": 5.0, "charger.charge_current": 4.0}, "holds", 1.0),
        Example("3 A socket, 5 A", {"charge_port.plug_current": 3.0, "charger.charge_current": 5.0}, "fails", -2.0),
        Example("exactly on the limit", {"charge_port.plug_current": 5.0, "charger.charge_current": 5.0}, "holds", 0.0),
        Example("socket unread", {"charger.charge_current": 4.0}, "undecided"),
    ),
)
