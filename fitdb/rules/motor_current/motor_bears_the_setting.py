"""The peak current on a motor's sheet lasts seconds, and sheets are optimistic. A setting above seven tenths of it
overheats the winding and takes strength from the magnets for good.
"""

from fitdb.model.rule import AtMost, Bound, Example, Rule, Severity


def quantity(setting: float, peak_current: float) -> float:
    return setting / peak_current


RULE = Rule(
    question="Is the motor current set well below the motor's peak?",
    needs=("controller.greatest_current", "motor.peak_current"),
    quantity=quantity,
    measures="greater of motor and braking current as set, over the peak current on the motor's sheet",
    formula="k = I_set / I_peak",
    unit="",
    hard=AtMost(Bound("motor_current.motor_bears_the_setting.most", 0.7, "common practice, no source")),
    comfort=AtMost(Bound("motor_current.motor_bears_the_setting.comfort", 0.6, "common practice, no source")),
    severity=Severity.DAMAGE,
    caution=(
        "Feel the motor after the first kilometre: too hot to hold is too hot. Start at 40 per cent of the setting."
    ),
    remedy_hint="less motor current, driving and braking, in the settings",
    examples=(
        Example(
            "50 A set on an 80 A motor",
            {"controller.greatest_current": 50.0, "motor.peak_current": 80.0},
            "holds",
            0.075,
        ),
        Example(
            "70 A set on an 80 A motor",
            {"controller.greatest_current": 70.0, "motor.peak_current": 80.0},
            "fails",
            -0.175,
            two_numbers="70 is less than 80: comparing setting and sheet says yes",
        ),
        Example(
            "exactly on the limit", {"controller.greatest_current": 56.0, "motor.peak_current": 80.0}, "holds", 0.0
        ),
        Example("peak unread", {"controller.greatest_current": 50.0}, "undecided"),
    ),
)
