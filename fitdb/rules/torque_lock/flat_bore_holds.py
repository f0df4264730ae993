"""A D-shaped bore on a flatted shaft holds by contact up to about 4 N m. Beyond that the edge of the flat digs into the
bore, and the pulley starts to knock.
"""

from fitdb.formulas.shaft_locks import torque_borne
from fitdb.model.rule import AtMost, Bound, Example, NothingToGuard, Rule, Severity


def quantity(torque: float, lock: str, shaft_form: str, bushes: tuple[str, ...]) -> float | NothingToGuard:
    return torque_borne(torque, lock, shaft_form, bushes, "flat_on_flat")


RULE = Rule(
    question="Does the flat bear the motor's torque?",
    needs=("motor.shaft_torque", "drive_pulley.lock", "motor.shaft_form", "bush*.slit"),
    quantity=quantity,
    measures="torque that a D-shaped bore has to carry on the flat",
    formula="T = K_t·I where it is the lock in use, else 0",
    unit="N_m",
    hard=AtMost(Bound("torque_lock.flat_bore_holds.most", 4.0, "common practice, no source")),
    severity=Severity.INJURY,
    caution=(
        "On this build the motor is the brake. A pulley that spins on its shaft is a brake that is gone; one that jams "
        "locks the wheel."
    ),
    remedy_hint="less motor current, or a keyed pulley",
    examples=(
        Example(
            "well below",
            {
                "motor.shaft_torque": (2.8, 3, 3.2),
                "drive_pulley.lock": "flat",
                "motor.shaft_form": "flat",
            },
            "holds",
            1,
        ),
        Example(
            "a fifth too much",
            {"motor.shaft_torque": 4.8, "drive_pulley.lock": "flat", "motor.shaft_form": "flat"},
            "fails",
            -0.8,
        ),
        Example(
            "exactly on the limit",
            {"motor.shaft_torque": 4.0, "drive_pulley.lock": "flat", "motor.shaft_form": "flat"},
            "holds",
            0.0,
        ),
        Example(
            "another lock carries it",
            {"motor.shaft_torque": 4.8, "drive_pulley.lock": "key", "motor.shaft_form": "key"},
            "excused",
        ),
        Example("torque unread", {"drive_pulley.lock": "flat", "motor.shaft_form": "flat"}, "undecided"),
    ),
)
