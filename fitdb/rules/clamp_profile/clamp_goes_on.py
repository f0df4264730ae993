"""The open clamp has to slide over the hanger before anything else. One that has to be hammered on is cracked at its
split, and a cast hanger is scored.
"""

from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity


def quantity(bore: float, profile: float, lining: float) -> float:
    return bore - profile - lining


RULE = Rule(
    question="Does the open clamp go over the hanger?",
    needs=("motor_mount.clamp_bore", "hanger.size_a", "motor_mount.shim_lining"),
    quantity=quantity,
    measures="clamp bore less the hanger's size at the thick end of the clamp, and less shims on both sides",
    formula="Δ = bore − profile − 2·Σt_shim",
    unit="mm",
    hard=AtLeast(Bound("clamp_profile.clamp_goes_on.least", 0.0, "common practice, no source")),
    severity=Severity.INJURY,
    caution="Do not spread the split with a wedge: a clamp that is spread cracks there, and lets go when braking.",
    remedy_hint="a clamp of the next size",
    examples=(
        Example(
            "a 31.8 mm bore over a cast barrel of 31.5 mm",
            {
                "motor_mount.clamp_bore": (31.75, 31.8, 31.85),
                "hanger.size_a": (31.4, 31.5, 31.6),
                "motor_mount.shim_lining": 0.0,
            },
            "holds",
            0.3,
        ),
        Example(
            "exactly on the limit",
            {"motor_mount.clamp_bore": 31.8, "hanger.size_a": 31.3, "motor_mount.shim_lining": 0.5},
            "holds",
            0.0,
        ),
        Example(
            "a shim of 0.25 mm on both sides is too much",
            {"motor_mount.clamp_bore": 31.8, "hanger.size_a": 31.5, "motor_mount.shim_lining": 0.5},
            "fails",
            -0.2,
            two_numbers="31.5 is less than 31.8: comparing two diameters says yes",
        ),
        Example(
            "bore known from its name only",
            {
                "motor_mount.clamp_bore": (31.5, 32.0, 32.5),
                "hanger.size_a": (31.5, 31.6, 31.7),
                "motor_mount.shim_lining": 0.0,
            },
            "undecided",
            0.4,
        ),
        Example("hanger unread", {"motor_mount.clamp_bore": 31.8, "motor_mount.shim_lining": 0.0}, "undecided"),
    ),
)
