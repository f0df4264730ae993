"""Small round plugs are made for a few amps. Beyond that their springs go soft, and a soft spring gets hot and arcs."""

from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity


def quantity(plug_current: float, charge_current: float) -> float:
    return plug_current - charge_current


RULE = Rule(
    question="Does the plug of the charger bear its current?",
    needs=("charger.plug_current", "charger.charge_current"),
    quantity=quantity,
    measures="current that the plug bears, less the current of the charger",
    formula="m = I_plug − I_charger",
    unit="A",
    hard=AtLeast(Bound("charger_pack.own_plug_takes_the_current.least", 0.0, "common practice, no source")),
    severity=Severity.FIRE,
    caution="Charge while awake and present, on a surface that does not burn, away from the way out.",
    remedy_hint="a lower charging current, where the charger has such a setting",
    examples=(
        Example("5 A plug, 4 A", {"charger.plug_current": 5.0, "charger.charge_current": 4.0}, "holds", 1.0),
        Example("3 A plug, 5 A", {"charger.plug_current": 3.0, "charger.charge_current": 5.0}, "fails", -2.0),
        Example("exactly on the limit", {"charger.plug_current": 5.0, "charger.charge_current": 5.0}, "holds", 0.0),
        Example("plug unread", {"charger.charge_current": 4.0}, "undecided"),
    ),
)
