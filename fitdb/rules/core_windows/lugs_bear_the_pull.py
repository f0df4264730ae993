"""All of the motor's torque, driving or braking, goes through a few lugs. A plastic core gives way at a few hundred
newtons per lug; few lugs on a small circle carry most.

The load is shared as if all lugs carried alike; with play the first lug to touch carries more.
"""

from fitdb.formulas.motors import lug_force_n
from fitdb.model.rule import AtMost, Bound, Constant, Example, Rule, Severity


def quantity(
    shaft_torque: float,
    driven_teeth: int,
    drive_teeth: int,
    lug_count: int,
    lug_circle_radius: float,
    core_material: str,
    alloy_share: float,
) -> float:
    force = lug_force_n(shaft_torque * driven_teeth / drive_teeth, lug_count, lug_circle_radius)
    return force * (alloy_share if core_material == "alloy" else 1.0)


RULE = Rule(
    question="Can the core bear the pull of every lug?",
    needs=(
        "motor.shaft_torque",
        "driven_pulley.teeth",
        "drive_pulley.teeth",
        "pulley.lug_count",
        "pulley.lug_circle_radius",
        "wheel.core_material",
    ),
    quantity=quantity,
    measures="force per lug at the greatest motor current, driving or braking, as a plastic core would feel it",
    formula="F = T·(z_driven/z_drive)/(n·r); in an alloy core a quarter of it counts",
    unit="N",
    hard=AtMost(Bound("core_windows.lugs_bear_the_pull.most", 250.0, "common practice, no source")),
    severity=Severity.INJURY,
    constants=(Constant("alloy_share", 0.25, "1", "common practice, no source"),),
    caution=(
        "On this build the motor is the brake, and it reaches the wheel through these lugs. It can vanish without "
        "warning: learn to stop by foot, and leave distance."
    ),
    remedy_hint="Set the motor current lower, or take a pulley with more lugs or a larger circle.",
    examples=(
        Example(
            "2.5 N m through 36/15 teeth on six lugs",
            {
                "motor.shaft_torque": 2.513,
                "driven_pulley.teeth": 36,
                "drive_pulley.teeth": 15,
                "pulley.lug_count": 6,
                "pulley.lug_circle_radius": 20.5,
                "wheel.core_material": "plastic",
            },
            "holds",
            200.97,
        ),
        Example(
            "exactly on the limit",
            {
                "motor.shaft_torque": 5.0,
                "driven_pulley.teeth": 45,
                "drive_pulley.teeth": 15,
                "pulley.lug_count": 3,
                "pulley.lug_circle_radius": 20.0,
                "wheel.core_material": "plastic",
            },
            "holds",
            0.0,
        ),
        Example(
            "6 N m through 60/14 teeth on three lugs of a plastic core",
            {
                "motor.shaft_torque": 6.0,
                "driven_pulley.teeth": 60,
                "drive_pulley.teeth": 14,
                "pulley.lug_count": 3,
                "pulley.lug_circle_radius": 30.0,
                "wheel.core_material": "plastic",
            },
            "fails",
            -35.71,
            two_numbers="three lugs in three windows: comparing two counts says yes",
        ),
        Example(
            "the same on an alloy core",
            {
                "motor.shaft_torque": 6.0,
                "driven_pulley.teeth": 60,
                "drive_pulley.teeth": 14,
                "pulley.lug_count": 3,
                "pulley.lug_circle_radius": 30.0,
                "wheel.core_material": "alloy",
            },
            "holds",
            178.57,
        ),
        Example(
            "material of the core not looked at",
            {
                "motor.shaft_torque": 6.0,
                "driven_pulley.teeth": 60,
                "drive_pulley.teeth": 14,
                "pulley.lug_count": 3,
                "pulley.lug_circle_radius": 30.0,
            },
            "undecided",
        ),
    ),
)
