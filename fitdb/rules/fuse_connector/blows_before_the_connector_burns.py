"""A connector above its current melts long before a fuse that is larger takes notice."""

from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity


def quantity(link_current: float, rated_current: float) -> float:
    return link_current - rated_current


RULE = Rule(
    question="Does the fuse blow before this connector melts?",
    needs=("connector.link_current", "fuse.rated_current"),
    quantity=quantity,
    measures="current on the label of the connector, less the rated current of the fuse",
    formula="m = I_connector − I_fuse",
    unit="A",
    hard=AtLeast(Bound("fuse_connector.blows_before_the_connector_burns.least", 0.0, "common practice, no source")),
    severity=Severity.FIRE,
    caution="Never put in a fuse above what the smallest connector behind it bears, and never bridge one.",
    remedy_hint="a smaller fuse, or a larger connector on both sides",
    two_numbers_suffice="two ratings on two labels: the smaller one has to be the fuse",
    examples=(
        Example("50 A fuse, 60 A connector", {"connector.link_current": 60.0, "fuse.rated_current": 50.0}, "holds", 10),
        Example("80 A fuse, 60 A connector", {"connector.link_current": 60.0, "fuse.rated_current": 80.0}, "fails"),
        Example("exactly on the limit", {"connector.link_current": 60.0, "fuse.rated_current": 60.0}, "holds", 0.0),
        Example("connector unread", {"fuse.rated_current": 60.0}, "undecided"),
    ),
)
