"""The leads of the charge port come straight from the pack. A spanner across the socket draws all that the pack can
give; only a fuse in that lead, not above what the socket bears, ends it.
"""

from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity


def quantity(plug_current: float, fuse_current: float) -> float:
    return plug_current - fuse_current


RULE = Rule(
    question="Does the charging fuse blow before the socket burns?",
    needs=("charge_port.plug_current", "charge_port.fuse_current"),
    quantity=quantity,
    measures="current that the socket bears, less the rated current of the charging fuse",
    formula="m = I_socket − I_fuse",
    unit="A",
    hard=AtLeast(Bound("charge_port.fuse_guards_the_socket.least", 0.0, "common practice, no source")),
    severity=Severity.FIRE,
    caution=(
        "A lithium pack cannot be switched off. Treat its terminals as live at all times. Take off rings and watch; "
        "cover every open terminal, the charge socket too."
    ),
    remedy_hint="a smaller charging fuse",
    examples=(
        Example("5 A socket, 5 A fuse", {"charge_port.plug_current": 5.0, "charge_port.fuse_current": 5.0}, "holds", 0),
        Example("10 A socket, 5 A fuse", {"charge_port.plug_current": 10.0, "charge_port.fuse_current": 5.0}, "holds"),
        Example("3 A socket, 10 A fuse", {"charge_port.plug_current": 3.0, "charge_port.fuse_current": 10.0}, "fails"),
        Example("no fuse found", {"charge_port.plug_current": 5.0}, "undecided"),
    ),
)
