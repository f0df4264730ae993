"""A kerb edge or a root under the motor dents the can, and a dented can drags on its magnets. What counts is the wheel
as worn and sunk, the angle at which the motor really works, and whatever is screwed under it.
"""

from fitdb.formulas.clearances import motor_to_ground
from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity


def quantity(
    effective_radius: float, centre_distance: float, angle: float, can_diameter: float, guards: tuple[float, ...]
) -> float:
    return motor_to_ground(effective_radius, centre_distance, angle, can_diameter / 2.0) - sum(guards)


RULE = Rule(
    question="Does the motor stay clear of the ground?",
    needs=(
        "wheel.effective_radius",
        "motor_mount.centre_distance",
        "motor_mount.working_angle",
        "motor.can_diameter",
        "bash_guard*.thickness",
    ),
    quantity=quantity,
    measures="gap between the can, or the bash guard under it, and flat ground",
    formula="g = R_eff + C·sin α − r_can − Σt_guard",
    unit="mm",
    hard=AtLeast(Bound("motor_to_ground.motor_clears_the_ground.least", 15.0, "common practice, no source")),
    comfort=AtLeast(Bound("motor_to_ground.motor_clears_the_ground.comfort", 25.0, "common practice, no source")),
    severity=Severity.DAMAGE,
    remedy_hint="turn the clamp up (look at the deck again); larger wheels; a bash guard takes 4 mm more away",
    examples=(
        Example(
            "97 mm wheel, 63 mm can at 10°",
            {
                "wheel.effective_radius": (47.9, 48.2, 48.5),
                "motor_mount.centre_distance": (66.0, 66.5, 67.0),
                "motor_mount.working_angle": (9.0, 10.0, 11.0),
                "motor.can_diameter": (62.9, 63.0, 63.1),
                "bash_guard*.thickness": (),
            },
            "holds",
            13.25,
        ),
        Example(
            "the same on a wedge that lowers the motor by 10°, with a 4 mm guard and worn wheels",
            {
                "wheel.effective_radius": 46.0,
                "motor_mount.centre_distance": 66.5,
                "motor_mount.working_angle": 0.0,
                "motor.can_diameter": 63.0,
                "bash_guard*.thickness": (4.0,),
            },
            "fails",
            -4.5,
            two_numbers="the can of 63 mm is smaller than the wheel of 97 mm: comparing two diameters says yes",
        ),
        Example(
            "exactly on the limit",
            {
                "wheel.effective_radius": 46.5,
                "motor_mount.centre_distance": 66.5,
                "motor_mount.working_angle": 0.0,
                "motor.can_diameter": 63.0,
                "bash_guard*.thickness": (),
            },
            "holds",
            0.0,
        ),
        Example(
            "angle judged by eye",
            {
                "wheel.effective_radius": 45.0,
                "motor_mount.centre_distance": 66.5,
                "motor_mount.working_angle": (-3.0, 2.0, 7.0),
                "motor.can_diameter": 63.0,
                "bash_guard*.thickness": (),
            },
            "undecided",
        ),
        Example(
            "angle unread",
            {
                "wheel.effective_radius": 45.0,
                "motor_mount.centre_distance": 66.5,
                "motor.can_diameter": 63.0,
                "bash_guard*.thickness": (),
            },
            "undecided",
        ),
    ),
)
