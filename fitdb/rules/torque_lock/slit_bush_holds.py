"""A slit sleeve is pinched by the set screw and creeps round sooner than a whole bush: 2 N m are the most it is used
for.
"""

from fitdb.model.rule import AtMost, Bound, Example, Rule, Severity


def quantity(torque: float, slit: str) -> float:
    return torque if slit == "yes" else 0.0


RULE = Rule(
    question="Does the slit sleeve bear the motor's torque?",
    needs=("motor.shaft_torque", "bush.slit"),
    quantity=quantity,
    measures="torque that a slit sleeve has to carry",
    formula="T = K_t·I where the sleeve is slit, else 0",
    unit="N_m",
    hard=AtMost(Bound("torque_lock.slit_bush_holds.most", 2.0, "common practice, no source")),
    severity=Severity.INJURY,
    caution=("On this build the motor is the brake. A pulley that creeps round on its bush is a brake that is gone."),
    remedy_hint="less motor current, or a pulley bored for the shaft",
    examples=(
        Example("1.5 N m", {"motor.shaft_torque": (1.4, 1.5, 1.6), "bush.slit": "yes"}, "holds", 0.5),
        Example("4 N m", {"motor.shaft_torque": 4.0, "bush.slit": "yes"}, "fails", -2.0),
        Example("exactly on the limit", {"motor.shaft_torque": 2.0, "bush.slit": "yes"}, "holds", 0.0),
        Example("the other kind of bush", {"motor.shaft_torque": 4.0, "bush.slit": "no"}, "holds", 2.0),
        Example("slit or not, nobody has looked", {"motor.shaft_torque": 4.0, "bush.slit": "yes|no"}, "undecided"),
        Example("torque unread", {"bush.slit": "yes"}, "undecided"),
    ),
)
