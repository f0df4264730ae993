"""The lead between the plus of the pack and the fuse is guarded by nothing. It is kept so short that nothing can reach
and chafe it.
"""

from fitdb.model.rule import AtMost, Bound, Example, Rule, Severity


def quantity(distance_from_pack: float) -> float:
    return distance_from_pack


RULE = Rule(
    question="Does the fuse stand close to the pack?",
    needs=("fuse.distance_from_pack",),
    quantity=quantity,
    measures="length of lead between the plus of the pack and the fuse",
    formula="l = l_lead before the fuse",
    unit="mm",
    hard=AtMost(Bound("main_fuse.close_to_the_pack.most", 100.0, "common practice, no source")),
    severity=Severity.FIRE,
    caution=(
        "A lithium pack cannot be switched off. Treat its terminals as live at all times. The lead before the fuse is "
        "guarded by nothing: sleeve it twice."
    ),
    remedy_hint="the fuse moved up to the pack",
    examples=(
        Example("60 mm", {"fuse.distance_from_pack": (58.5, 60.0, 61.5)}, "holds", 40.0),
        Example("250 mm", {"fuse.distance_from_pack": (248.5, 250.0, 251.5)}, "fails", -150.0),
        Example("exactly on the limit", {"fuse.distance_from_pack": 100.0}, "holds", 0.0),
        Example("not measured", {}, "undecided"),
    ),
)
