"""Nine tenths of the limit leave room for a speed constant that is larger than its label and for a wheel that loses
the ground. Below the limit this only adds a word of caution.
"""

from fitdb.formulas.electrical_speed import below_ceiling
from fitdb.model.rule import AtMost, Bound, Example, Rule, Severity


def quantity(speed: float, ceiling: float, limit: float) -> float:
    return below_ceiling(speed, ceiling) / limit


RULE = Rule(
    question="Does the speed at full pack leave a tenth of the limit?",
    needs=("motor.electrical_speed", "controller.rev_ceiling", "controller.electrical_speed_limit"),
    quantity=quantity,
    measures="electrical speed at full pack over the limit of the controller",
    formula="k = min(K_v·V_full·p, ω_ceiling) / ω_limit",
    unit="",
    hard=AtMost(Bound("electrical_speed.speed_leaves_a_tenth.most", 1.0, "common practice, no source")),
    comfort=AtMost(Bound("electrical_speed.speed_leaves_a_tenth.comfort", 0.9, "common practice, no source")),
    severity=Severity.DAMAGE,
    remedy_hint="a ceiling at nine tenths of the limit",
    examples=(
        Example(
            "59 976 of 100 000",
            {
                "motor.electrical_speed": 59976.0,
                "controller.rev_ceiling": 1000000.0,
                "controller.electrical_speed_limit": 100000.0,
            },
            "holds",
            0.4,
        ),
        Example(
            "66 000 of 60 000",
            {
                "motor.electrical_speed": 66000.0,
                "controller.rev_ceiling": 1000000.0,
                "controller.electrical_speed_limit": 60000.0,
            },
            "fails",
            -0.1,
        ),
        Example(
            "exactly on the limit",
            {
                "motor.electrical_speed": 60000.0,
                "controller.rev_ceiling": 1000000.0,
                "controller.electrical_speed_limit": 60000.0,
            },
            "holds",
            0.0,
        ),
        Example("limit unread", {"motor.electrical_speed": 60000.0, "controller.rev_ceiling": 1000000.0}, "undecided"),
    ),
)
