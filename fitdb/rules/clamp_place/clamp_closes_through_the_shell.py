"""With a shell between, one split has to close two gaps: the one round the shell and the one inside it. Each may be
small enough by itself while both together are more than the clamp can close.
"""

from fitdb.formulas.clamp_profiles import closing_needed
from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity


def quantity(
    closing_range: float,
    bore: float,
    shell_outside: float,
    shell_bore: float,
    profile: float,
    lining: float,
    clamp_width: float,
    draft: float,
) -> float:
    return closing_range - (bore - shell_outside - lining) - closing_needed(shell_bore, profile, clamp_width, draft)


RULE = Rule(
    question="Can the clamp close both gaps, round the shell and inside it?",
    needs=(
        "motor_mount.closing_range",
        "motor_mount.clamp_bore",
        "mount_shell.size_a",
        "mount_shell.clamp_bore",
        "hanger.size_a",
        "motor_mount.shim_lining",
        "motor_mount.clamp_width",
        "hanger.draft",
    ),
    quantity=quantity,
    measures="what is left of the clamp's closing range when the shell grips at the thin end of the hanger",
    formula="m = closing range − (bore − shell outside) − (shell bore − profile) − clamp width · tan(draft)",
    unit="mm",
    hard=AtLeast(Bound("clamp_place.clamp_closes_through_the_shell.least", 0.0, "common practice, no source")),
    severity=Severity.INJURY,
    caution="When the mount turns, the motor strikes the ground and the wheel locks.",
    remedy_hint="a shim between shell and clamp; a shell made to the hanger",
    examples=(
        Example(
            "0.1 mm round the shell and 0.1 mm inside, closing range 0.6 mm",
            {
                "motor_mount.closing_range": 0.6,
                "motor_mount.clamp_bore": (37.97, 38.0, 38.03),
                "mount_shell.size_a": (37.87, 37.9, 37.93),
                "mount_shell.clamp_bore": (31.07, 31.1, 31.13),
                "hanger.size_a": (30.97, 31.0, 31.03),
                "motor_mount.shim_lining": 0.0,
                "motor_mount.clamp_width": 20.0,
                "hanger.draft": 0.0,
            },
            "holds",
            0.4,
        ),
        Example(
            "0.4 mm round the shell and 0.4 mm inside",
            {
                "motor_mount.closing_range": 0.6,
                "motor_mount.clamp_bore": 38.0,
                "mount_shell.size_a": 37.6,
                "mount_shell.clamp_bore": 31.4,
                "hanger.size_a": 31.0,
                "motor_mount.shim_lining": 0.0,
                "motor_mount.clamp_width": 20.0,
                "hanger.draft": 0.0,
            },
            "fails",
            -0.2,
            two_numbers="each gap of 0.4 is less than the closing range of 0.6: comparing them one by one says yes",
        ),
        Example(
            "exactly on the limit",
            {
                "motor_mount.closing_range": 0.5,
                "motor_mount.clamp_bore": 38.0,
                "mount_shell.size_a": 37.75,
                "mount_shell.clamp_bore": 31.25,
                "hanger.size_a": 31.0,
                "motor_mount.shim_lining": 0.0,
                "motor_mount.clamp_width": 20.0,
                "hanger.draft": 0.0,
            },
            "holds",
            0.0,
        ),
        Example(
            "outside of the shell unread",
            {
                "motor_mount.closing_range": 0.5,
                "motor_mount.clamp_bore": 38.0,
                "mount_shell.clamp_bore": 31.25,
                "hanger.size_a": 31.0,
                "motor_mount.shim_lining": 0.0,
                "motor_mount.clamp_width": 20.0,
                "hanger.draft": 0.0,
            },
            "undecided",
        ),
    ),
)
