"""The side of the pack is live as soon as it is unplugged. By custom it wears the socket, whose contacts lie deep in
the housing; bare pins on that side are one dropped key away from a short.
"""

from fitdb.model.rule import Example, OneOf, Rule, Severity


def quantity(near_gender: str) -> str:
    return near_gender


RULE = Rule(
    question="Are the contacts on the side of the pack covered?",
    needs=("near.gender",),
    quantity=quantity,
    measures="gender of the connector on the side of the pack",
    formula="gender_pack side ∈ {socket, none}",
    unit="",
    hard=OneOf("power_plugs.live_side_is_covered", ("socket", "none"), "common practice, no source"),
    severity=Severity.INJURY,
    caution=(
        "A lithium pack cannot be switched off. Treat its terminals as live at all times. Take off rings and watch; "
        "cover every open terminal."
    ),
    remedy_hint="a covered socket on the leads of the pack, soldered one pole at a time by somebody trained for it",
    examples=(
        Example("socket on the pack", {"near.gender": "socket"}, "holds"),
        Example("bare pins on the pack", {"near.gender": "plug"}, "fails"),
        Example("not looked at", {"near.gender": "plug|socket"}, "undecided"),
        Example("unread", {}, "undecided"),
    ),
)
