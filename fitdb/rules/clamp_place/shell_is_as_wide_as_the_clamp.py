"""A shell that is shorter than the clamp is wide leaves the edge of the clamp in the air. The screws then tilt the
clamp, and it holds by half of its width.
"""

from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity


def quantity(shell_width: float, clamp_width: float) -> float:
    return shell_width - clamp_width


RULE = Rule(
    question="Is the shell at least as wide as the clamp on it?",
    needs=("mount_shell.clamp_width", "motor_mount.clamp_width"),
    quantity=quantity,
    measures="width of the shell along the hanger, less the width of the clamp",
    formula="s = w_shell − w_clamp",
    unit="mm",
    hard=AtLeast(Bound("clamp_place.shell_is_as_wide_as_the_clamp.least", 0.0, "common practice, no source")),
    severity=Severity.DAMAGE,
    two_numbers_suffice="two widths side by side; their spread is all there is to it",
    examples=(
        Example(
            "25 mm shell under a 20 mm clamp",
            {"mount_shell.clamp_width": (24.9, 25.0, 25.1), "motor_mount.clamp_width": 20.0},
            "holds",
            5.0,
        ),
        Example(
            "exactly on the limit", {"mount_shell.clamp_width": 20.0, "motor_mount.clamp_width": 20.0}, "holds", 0.0
        ),
        Example(
            "18 mm shell under a 20 mm clamp",
            {"mount_shell.clamp_width": 18.0, "motor_mount.clamp_width": 20.0},
            "fails",
            -2.0,
        ),
        Example("shell unread", {"motor_mount.clamp_width": 20.0}, "undecided"),
    ),
)
