"""A set screw on a filed flat holds about 2.5 N m. It works loose before it gives way: check it after 1, 10 and 100
km.
"""

from fitdb.formulas.shaft_locks import torque_borne
from fitdb.model.rule import AtMost, Bound, Example, NothingToGuard, Rule, Severity


def quantity(torque: float, lock: str, shaft_form: str, bushes: tuple[str, ...]) -> float | NothingToGuard:
    return torque_borne(torque, lock, shaft_form, bushes, "set_screw_on_flat")


RULE = Rule(
    question="Does a set screw on a flat bear the motor's torque?",
    needs=("motor.shaft_torque", "drive_pulley.lock", "motor.shaft_form", "bush*.slit"),
    quantity=quantity,
    measures="torque that a set screw on a flat has to carry",
    formula="T = K_t·I where it is the lock in use, else 0",
    unit="N_m",
    hard=AtMost(Bound("torque_lock.set_screw_on_flat_holds.most", 2.5, "common practice, no source")),
    severity=Severity.INJURY,
    caution=(
        "On this build the motor is the brake. A pulley that spins on its shaft is a brake that is gone; one that jams "
        "locks the wheel."
    ),
    remedy_hint="less motor current, retaining compound, or a keyed pulley",
    examples=(
        Example(
            "well below",
            {
                "motor.shaft_torque": (1.75, 1.875, 2),
                "drive_pulley.lock": "set_screw",
                "motor.shaft_form": "flat",
            },
            "holds",
            0.625,
        ),
        Example(
            "a fifth too much",
            {"motor.shaft_torque": 3, "drive_pulley.lock": "set_screw", "motor.shaft_form": "flat"},
            "fails",
            -0.5,
            two_numbers="8 mm bore and 8 mm shaft: comparing two numbers says yes",
        ),
        Example(
            "exactly on the limit",
            {"motor.shaft_torque": 2.5, "drive_pulley.lock": "set_screw", "motor.shaft_form": "flat"},
            "holds",
            0.0,
        ),
        Example(
            "another lock carries it",
            {"motor.shaft_torque": 3, "drive_pulley.lock": "key", "motor.shaft_form": "key"},
            "excused",
        ),
        Example("torque unread", {"drive_pulley.lock": "set_screw", "motor.shaft_form": "flat"}, "undecided"),
    ),
)
