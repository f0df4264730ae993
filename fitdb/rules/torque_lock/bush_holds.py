"""With a reducing bush between pulley and shaft the key is lost, and the bush has to hold by its fit: about 3 N m.
Check it hot, after the first hill.
"""

from fitdb.model.rule import AtMost, Bound, Example, Rule, Severity


def quantity(torque: float, slit: str) -> float:
    return torque if slit == "no" else 0.0


RULE = Rule(
    question="Does the bush bear the motor's torque?",
    needs=("motor.shaft_torque", "bush.slit"),
    quantity=quantity,
    measures="torque that a whole bush has to carry",
    formula="T = K_t·I where the bush is whole, else 0",
    unit="N_m",
    hard=AtMost(Bound("torque_lock.bush_holds.most", 3.0, "common practice, no source")),
    severity=Severity.INJURY,
    caution=("On this build the motor is the brake. A pulley that creeps round on its bush is a brake that is gone."),
    remedy_hint="less motor current, or a pulley bored for the shaft",
    examples=(
        Example("1.5 N m", {"motor.shaft_torque": (1.4, 1.5, 1.6), "bush.slit": "no"}, "holds", 1.5),
        Example("4 N m", {"motor.shaft_torque": 4.0, "bush.slit": "no"}, "fails", -1.0),
        Example("exactly on the limit", {"motor.shaft_torque": 3.0, "bush.slit": "no"}, "holds", 0.0),
        Example("the other kind of bush", {"motor.shaft_torque": 4.0, "bush.slit": "yes"}, "holds", 3.0),
        Example("slit or not, nobody has looked", {"motor.shaft_torque": 4.0, "bush.slit": "yes|no"}, "undecided"),
        Example("torque unread", {"bush.slit": "no"}, "undecided"),
    ),
)
