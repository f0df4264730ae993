"""A sleeve shorter than its bearing lets the bearing tilt on its edge."""

from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity


def quantity(sleeve_length: float, bearing_width: float) -> float:
    return sleeve_length - bearing_width


RULE = Rule(
    question="Is the sleeve at least as long as the bearing is wide?",
    needs=("hanger.sleeve_length", "bearing.width"),
    quantity=quantity,
    measures="length of the sleeve less width of the bearing",
    formula="l_sleeve − w_bearing",
    unit="mm",
    hard=AtLeast(Bound("bearing_on_axle.sleeve_carries_the_whole_bearing.least", 0.0, "common practice, no source")),
    severity=Severity.INJURY,
    caution="A wheel that runs on half a bearing works loose. Check nut and play after 1, 10 and 100 km.",
    two_numbers_suffice="one length against one width",
    examples=(
        Example("30 mm sleeve", {"hanger.sleeve_length": 30.0, "bearing.width": (5.88, 6.0, 6.0)}, "holds", 24.0),
        Example("exactly on the limit", {"hanger.sleeve_length": 6.0, "bearing.width": 6.0}, "holds", 0.0),
        Example("5 mm sleeve", {"hanger.sleeve_length": 5.0, "bearing.width": 6.0}, "fails", -1.0),
        Example("sleeve unread", {"bearing.width": 6.0}, "undecided"),
    ),
)
