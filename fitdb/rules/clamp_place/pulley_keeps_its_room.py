"""The driven pulley turns beside the clamp, over the end of the hanger. Without 5 mm for it the pulley scrapes on the
clamp, or is pushed out until the belt runs off its line.
"""

from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity


def quantity(clear_length: float, clamp_width: float) -> float:
    return clear_length - clamp_width


RULE = Rule(
    question="Does the clamp leave room for the pulley on the straight part of the hanger?",
    needs=("hanger.clear_length", "motor_mount.clamp_width"),
    quantity=quantity,
    measures="straight length next to the shoulder, less the width of the clamp",
    formula="s = clear length − clamp width",
    unit="mm",
    hard=AtLeast(Bound("clamp_place.pulley_keeps_its_room.least", 5.0, "common practice, no source")),
    severity=Severity.DAMAGE,
    remedy_hint="a narrower clamp; a hanger with a longer straight part",
    examples=(
        Example(
            "20 mm clamp on 28 mm of straight hanger",
            {"hanger.clear_length": (27.5, 28.0, 28.5), "motor_mount.clamp_width": 20.0},
            "holds",
            3.0,
        ),
        Example("exactly on the limit", {"hanger.clear_length": 25.0, "motor_mount.clamp_width": 20.0}, "holds", 0.0),
        Example(
            "20 mm clamp on 22 mm of straight hanger",
            {"hanger.clear_length": 22.0, "motor_mount.clamp_width": 20.0},
            "fails",
            -3.0,
            two_numbers="20 is less than 22: comparing two lengths says yes",
        ),
        Example(
            "straight length read with a ruler",
            {"hanger.clear_length": (24.0, 25.5, 27.0), "motor_mount.clamp_width": 20.0},
            "undecided",
            0.5,
        ),
        Example("straight length unread", {"motor_mount.clamp_width": 20.0}, "undecided"),
    ),
)
