"""A wheel that slides to and fro hammers its bearings and its nut loose."""

from fitdb.model.rule import AtMost, Bound, Example, Rule, Severity


def quantity(end_play: float) -> float:
    return end_play


RULE = Rule(
    question="Is the play along the axle small?",
    needs=("wheel.end_play",),
    quantity=quantity,
    measures="play of the wheel along the axle",
    formula="P · turns back, or as felt",
    unit="mm",
    hard=AtMost(Bound("end_play.wheel_does_not_wander.most", 0.3, "common practice, no source")),
    severity=Severity.DAMAGE,
    two_numbers_suffice="one reading against a window: nothing else enters",
    examples=(
        Example("a fifth of a turn on M8", {"wheel.end_play": 0.25}, "holds", 0.05),
        Example("exactly on the limit", {"wheel.end_play": 0.3}, "holds", 0.0),
        Example("half a turn on M8", {"wheel.end_play": 0.625}, "fails", -0.325),
        Example("not felt yet", {}, "undecided"),
    ),
)
