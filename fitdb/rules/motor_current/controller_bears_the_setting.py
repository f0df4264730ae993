"""The power stage of a controller carries so much phase current without end. A setting can stand above it, and a
setting that is carried for a minute on a hill burns the stage.
"""

from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity


def quantity(rating: float, setting: float) -> float:
    return rating - setting


RULE = Rule(
    question="Does the controller carry the motor current that it is set to?",
    needs=("controller.phase_continuous_current", "controller.greatest_current"),
    quantity=quantity,
    measures="continuous phase current on the sheet less the greater of motor and braking current as set, per channel",
    formula="m = I_cont − I_set",
    unit="A",
    hard=AtLeast(Bound("motor_current.controller_bears_the_setting.least", 0.0, "common practice, no source")),
    severity=Severity.DAMAGE,
    remedy_hint="less motor current, driving and braking, in the settings",
    examples=(
        Example(
            "50 A set, 60 A without end",
            {"controller.phase_continuous_current": 60.0, "controller.greatest_current": 50.0},
            "holds",
            10.0,
        ),
        Example(
            "80 A set, 60 A without end",
            {"controller.phase_continuous_current": 60.0, "controller.greatest_current": 80.0},
            "fails",
            -20.0,
        ),
        Example(
            "exactly on the limit",
            {"controller.phase_continuous_current": 60.0, "controller.greatest_current": 60.0},
            "holds",
            0.0,
        ),
        Example("rating unread", {"controller.greatest_current": 50.0}, "undecided"),
    ),
)
