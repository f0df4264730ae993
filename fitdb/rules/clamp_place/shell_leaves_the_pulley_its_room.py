"""The shell lies on the straight part of the hanger too, and the pulley turns beside it."""

from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity


def quantity(clear_length: float, shell_width: float) -> float:
    return clear_length - shell_width


RULE = Rule(
    question="Does the shell leave room for the pulley on the straight part of the hanger?",
    needs=("hanger.clear_length", "mount_shell.clamp_width"),
    quantity=quantity,
    measures="straight length next to the shoulder, less the width of the shell",
    formula="s = clear length − w_shell",
    unit="mm",
    hard=AtLeast(Bound("clamp_place.shell_leaves_the_pulley_its_room.least", 5.0, "common practice, no source")),
    severity=Severity.DAMAGE,
    remedy_hint="saw the shell to the width of the clamp",
    examples=(
        Example(
            "25 mm shell on 32 mm of straight hanger",
            {"hanger.clear_length": (31.5, 32.0, 32.5), "mount_shell.clamp_width": 25.0},
            "holds",
            2.0,
        ),
        Example("exactly on the limit", {"hanger.clear_length": 30.0, "mount_shell.clamp_width": 25.0}, "holds", 0.0),
        Example(
            "25 mm shell on 26 mm of straight hanger",
            {"hanger.clear_length": 26.0, "mount_shell.clamp_width": 25.0},
            "fails",
            -4.0,
            two_numbers="25 is less than 26: comparing two lengths says yes",
        ),
        Example("straight length unread", {"mount_shell.clamp_width": 25.0}, "undecided"),
    ),
)
