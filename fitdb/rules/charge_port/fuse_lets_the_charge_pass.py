"""A charging fuse that is smaller than the charging current blows on the first evening."""

from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity


def quantity(fuse_current: float, charge_current: float) -> float:
    return fuse_current - charge_current


RULE = Rule(
    question="Does the charging fuse let the current pass?",
    needs=("charge_port.fuse_current", "charger.charge_current"),
    quantity=quantity,
    measures="rated current of the charging fuse, less the current of the charger",
    formula="m = I_fuse − I_charger",
    unit="A",
    hard=AtLeast(Bound("charge_port.fuse_lets_the_charge_pass.least", 0.0, "common practice, no source")),
    severity=Severity.NUISANCE,
    remedy_hint="another charging fuse",
    examples=(
        Example("5 A fuse, 4 A", {"charge_port.fuse_current": 5.0, "charger.charge_current": 4.0}, "holds", 1.0),
        Example("3 A fuse, 5 A", {"charge_port.fuse_current": 3.0, "charger.charge_current": 5.0}, "fails", -2.0),
        Example("exactly on the limit", {"charge_port.fuse_current": 5.0, "charger.charge_current": 5.0}, "holds", 0.0),
        Example("fuse unread", {"charger.charge_current": 4.0}, "undecided"),
    ),
)
