"""A wheel without any play drags: its bearings are clamped sideways, run hot and die."""

from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity


def quantity(end_play: float) -> float:
    return end_play


RULE = Rule(
    question="Is a little play felt along the axle?",
    needs=("wheel.end_play",),
    quantity=quantity,
    measures="play of the wheel along the axle",
    formula="P · turns back, or as felt",
    unit="mm",
    hard=AtLeast(Bound("end_play.wheel_is_not_clamped.least", 0.1, "common practice, no source")),
    severity=Severity.DAMAGE,
    two_numbers_suffice="one reading against a window: nothing else enters",
    examples=(
        Example("an eighth of a turn on M8", {"wheel.end_play": (0.13, 0.156, 0.18)}, "holds", 0.056),
        Example("exactly on the limit", {"wheel.end_play": 0.1}, "holds", 0.0),
        Example("tightened until it drags", {"wheel.end_play": 0.0}, "fails", -0.1),
        Example("not felt yet", {}, "undecided"),
    ),
)
