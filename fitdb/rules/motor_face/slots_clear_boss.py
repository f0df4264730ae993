"""The raised boss in the middle of the motor's face goes through the mount. Where the slots reach as far in as the
boss, there is no metal left for the screws to press on.
"""

from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity


def quantity(slot_circle: float, slot_width: float, boss_diameter: float) -> float:
    return (slot_circle - slot_width - boss_diameter) / 2.0


RULE = Rule(
    question="Do the slots stay outside the motor's boss?",
    needs=("motor_mount.slot_circle", "motor_mount.slot_width", "motor.boss_diameter"),
    quantity=quantity,
    measures="metal between the boss and the inner edge of a slot",
    formula="(Ø_slots − w_slot − Ø_boss)/2",
    unit="mm",
    hard=AtLeast(Bound("motor_face.slots_clear_boss.least", 0.0, "common practice, no source")),
    severity=Severity.DAMAGE,
    remedy_hint="a mount with slots on a larger circle",
    examples=(
        Example(
            "44 mm circle, 16 mm boss",
            {
                "motor_mount.slot_circle": (43.8, 44.0, 44.2),
                "motor_mount.slot_width": 4.3,
                "motor.boss_diameter": 16.0,
            },
            "holds",
            11.85,
        ),
        Example(
            "25 mm circle, 22 mm boss",
            {"motor_mount.slot_circle": 25.0, "motor_mount.slot_width": 3.2, "motor.boss_diameter": 22.0},
            "fails",
            -0.1,
            two_numbers="22 is less than 25: comparing two numbers says yes",
        ),
        Example(
            "exactly on the limit",
            {"motor_mount.slot_circle": 25.0, "motor_mount.slot_width": 3.0, "motor.boss_diameter": 22.0},
            "holds",
            0.0,
        ),
        Example("boss unread", {"motor_mount.slot_circle": 44.0, "motor_mount.slot_width": 4.3}, "undecided"),
    ),
)
