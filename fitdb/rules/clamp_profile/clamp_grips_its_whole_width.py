"""A clamp closes by the width of its split and no further. On a cast hanger, which tapers, the thin end is gripped
last: when the split is shut before that, the mount holds by one edge, and turns under braking.
"""

from fitdb.formulas.clamp_profiles import closing_needed
from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity


def quantity(
    closing_range: float, bore: float, profile: float, lining: float, clamp_width: float, draft: float
) -> float:
    return closing_range - closing_needed(bore, profile + lining, clamp_width, draft)


RULE = Rule(
    question="Can the clamp close until it grips over its whole width?",
    needs=(
        "motor_mount.closing_range",
        "motor_mount.clamp_bore",
        "hanger.size_a",
        "motor_mount.shim_lining",
        "motor_mount.clamp_width",
        "hanger.draft",
    ),
    quantity=quantity,
    measures="what is left of the clamp's closing range when it grips at the thin end of the hanger",
    formula="m = closing range − (bore − profile − 2·Σt_shim) − clamp width · tan(draft)",
    unit="mm",
    hard=AtLeast(Bound("clamp_profile.clamp_grips_its_whole_width.least", 0.0, "common practice, no source")),
    severity=Severity.INJURY,
    caution=(
        "When the mount turns, the motor strikes the ground and the wheel locks. Mark clamp and hanger with paint, and "
        "look at the mark after 1, 10 and 100 km."
    ),
    remedy_hint="read the hanger more finely; a shim that covers most of the way round; a shell",
    examples=(
        Example(
            "cast barrel read with a caliper, 31.5 ± 0.1 mm",
            {
                "motor_mount.closing_range": 0.6,
                "motor_mount.clamp_bore": (31.75, 31.8, 31.85),
                "hanger.size_a": (31.4, 31.5, 31.6),
                "motor_mount.shim_lining": 0.0,
                "motor_mount.clamp_width": 20.0,
                "hanger.draft": (0.3, 0.5, 0.7),
            },
            "undecided",
            0.125,
            two_numbers="31.8 less 31.5 is 0.3, which is less than the closing range of 0.6: two numbers say yes",
        ),
        Example(
            "the same barrel, read as 31.60 ± 0.03 mm",
            {
                "motor_mount.closing_range": 0.6,
                "motor_mount.clamp_bore": (31.75, 31.8, 31.85),
                "hanger.size_a": (31.57, 31.6, 31.63),
                "motor_mount.shim_lining": 0.0,
                "motor_mount.clamp_width": 20.0,
                "hanger.draft": (0.3, 0.5, 0.7),
            },
            "holds",
            0.225,
        ),
        Example(
            "the same barrel, read as 31.10 ± 0.03 mm",
            {
                "motor_mount.closing_range": 0.6,
                "motor_mount.clamp_bore": (31.75, 31.8, 31.85),
                "hanger.size_a": (31.07, 31.1, 31.13),
                "motor_mount.shim_lining": 0.0,
                "motor_mount.clamp_width": 20.0,
                "hanger.draft": (0.3, 0.5, 0.7),
            },
            "fails",
            -0.275,
        ),
        Example(
            "31.1 mm with a shim of 0.25 mm on both sides",
            {
                "motor_mount.closing_range": 0.6,
                "motor_mount.clamp_bore": (31.75, 31.8, 31.85),
                "hanger.size_a": (31.07, 31.1, 31.13),
                "motor_mount.shim_lining": (0.46, 0.5, 0.54),
                "motor_mount.clamp_width": 20.0,
                "hanger.draft": (0.3, 0.5, 0.7),
            },
            "holds",
            0.225,
        ),
        Example(
            "a machined barrel without draft, exactly on the limit",
            {
                "motor_mount.closing_range": 0.5,
                "motor_mount.clamp_bore": 32.0,
                "hanger.size_a": 31.5,
                "motor_mount.shim_lining": 0.0,
                "motor_mount.clamp_width": 20.0,
                "hanger.draft": 0.0,
            },
            "holds",
            0.0,
        ),
        Example(
            "draft unread",
            {
                "motor_mount.closing_range": 0.6,
                "motor_mount.clamp_bore": 31.8,
                "hanger.size_a": 31.5,
                "motor_mount.shim_lining": 0.0,
                "motor_mount.clamp_width": 20.0,
            },
            "undecided",
        ),
    ),
)
