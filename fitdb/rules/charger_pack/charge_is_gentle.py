"""Cells last longest when they are filled in two hours or more: half of the capacity per hour. Faster is a matter of
how long the pack is to live, up to what the sheet of the cell allows.
"""

from fitdb.model.rule import AtMost, Bound, Example, Rule, Severity


def quantity(charge_current: float, capacity: float) -> float:
    return charge_current / capacity


RULE = Rule(
    question="Is the pack filled slowly enough to last long?",
    needs=("charger.charge_current", "pack.capacity_ah"),
    quantity=quantity,
    measures="charging current over the capacity of the pack, in capacities per hour",
    formula="C = I_charger / Q",
    unit="1/h",
    hard=AtMost(Bound("charger_pack.charge_is_gentle.most", 2.0, "common practice, no source")),
    comfort=AtMost(Bound("charger_pack.charge_is_gentle.comfort", 0.5, "common practice, no source")),
    severity=Severity.DAMAGE,
    remedy_hint="a lower charging current, where the charger has such a setting",
    examples=(
        Example("4 A into 10 Ah", {"charger.charge_current": 4.0, "pack.capacity_ah": 10.0}, "holds", 1.6),
        Example("5 A into 2 Ah", {"charger.charge_current": 5.0, "pack.capacity_ah": 2.0}, "fails", -0.5),
        Example("exactly on the limit", {"charger.charge_current": 4.0, "pack.capacity_ah": 2.0}, "holds", 0.0),
        Example("capacity unread", {"charger.charge_current": 4.0}, "undecided"),
    ),
)
