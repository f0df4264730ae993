"""A connector above its current melts long before a fuse that is larger takes notice.

Where two packs with a fuse each feed one connector, a fault draws through both: it has to bear the two together.
"""

from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity


def quantity(link_current: float, fuses: tuple[float, ...]) -> float:
    return link_current - sum(fuses)


RULE = Rule(
    question="Does the fuse blow before this connector melts?",
    needs=("connector.link_current", "fuse*.rated_current"),
    quantity=quantity,
    measures="current on the label of the connector, less the rated current of the fuses before it, all together",
    formula="m = I_connector − Σ I_fuse",
    unit="A",
    hard=AtLeast(Bound("fuse_connector.blows_before_the_connector_burns.least", 0.0, "common practice, no source")),
    severity=Severity.FIRE,
    caution="Never put in a fuse above what the smallest connector behind it bears, and never bridge one.",
    remedy_hint="a smaller fuse, or a larger connector on both sides",
    examples=(
        Example(
            "50 A fuse, 60 A connector",
            {"connector.link_current": 60.0, "fuse*.rated_current": (50.0,)},
            "holds",
            10.0,
        ),
        Example(
            "80 A fuse, 60 A connector",
            {"connector.link_current": 60.0, "fuse*.rated_current": (80.0,)},
            "fails",
            -20.0,
        ),
        Example("exactly on the limit", {"connector.link_current": 60.0, "fuse*.rated_current": (60.0,)}, "holds", 0.0),
        Example(
            "two packs with a 40 A fuse each, 60 A connector",
            {"connector.link_current": 60.0, "fuse*.rated_current": (40.0, 40.0)},
            "fails",
            -20.0,
            two_numbers="40 A is less than 60 A: either label against the connector's says yes",
        ),
        Example("connector unread", {"fuse*.rated_current": (60.0,)}, "undecided"),
    ),
)
