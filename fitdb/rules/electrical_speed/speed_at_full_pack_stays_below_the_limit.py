"""Above its limit a controller loses step with the motor, and drive and brake are gone in a jerk at the highest speed
there is. Counted is what the full pack gives, or the ceiling of the settings where one is set.
"""

from fitdb.formulas.electrical_speed import below_ceiling
from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity


def quantity(limit: float, speed: float, ceiling: float) -> float:
    return limit - below_ceiling(speed, ceiling)


RULE = Rule(
    question="Can the controller follow the motor at full pack?",
    needs=("controller.electrical_speed_limit", "motor.electrical_speed", "controller.rev_ceiling"),
    quantity=quantity,
    measures="limit of the controller less the electrical speed of the unloaded motor at full pack",
    formula="m = ω_limit − min(K_v·V_full·p, ω_ceiling)",
    unit="rpm",
    hard=AtLeast(
        Bound("electrical_speed.speed_at_full_pack_stays_below_the_limit.least", 0.0, "common practice, no source")
    ),
    severity=Severity.INJURY,
    caution=(
        "On this build the motor is the brake. Where the controller loses step, drive and brake vanish at full speed: "
        "raise the speed in small steps, and learn to stop by foot."
    ),
    remedy_hint="a ceiling in the settings, a motor of lower speed constant, or fewer cells in series",
    examples=(
        Example(
            "170 rpm/V, seven pole pairs, 12 cells, limit 100 000",
            {
                "controller.electrical_speed_limit": 100000.0,
                "motor.electrical_speed": (56977.0, 59976.0, 62975.0),
                "controller.rev_ceiling": 1000000.0,
            },
            "holds",
            40024.0,
        ),
        Example(
            "75 rpm/V with fifteen pole pairs at 42 V, limit 40 000",
            {
                "controller.electrical_speed_limit": 40000.0,
                "motor.electrical_speed": 47250.0,
                "controller.rev_ceiling": 1000000.0,
            },
            "fails",
            -7250.0,
            two_numbers="75 rpm/V is slow, 75 × 42 = 3150 rpm: comparing that with 40 000 says yes",
        ),
        Example(
            "the same with a ceiling",
            {
                "controller.electrical_speed_limit": 40000.0,
                "motor.electrical_speed": 47250.0,
                "controller.rev_ceiling": 36000.0,
            },
            "holds",
            4000.0,
        ),
        Example(
            "exactly on the limit",
            {
                "controller.electrical_speed_limit": 47250.0,
                "motor.electrical_speed": 47250.0,
                "controller.rev_ceiling": 1000000.0,
            },
            "holds",
            0.0,
        ),
        Example(
            "limit unread",
            {"motor.electrical_speed": 47250.0, "controller.rev_ceiling": 1000000.0},
            "undecided",
        ),
    ),
)
