"""A hub that is only bonded to its shaft is good for about 3 N m, if both were clean. It gives way when it gets hot,
and heat of 150 to 200 °C is also how it is undone; shield the magnets, which suffer above 80 °C.
"""

from fitdb.formulas.shaft_locks import torque_borne
from fitdb.model.rule import AtMost, Bound, Example, NothingToGuard, Rule, Severity


def quantity(torque: float, lock: str, shaft_form: str, bushes: tuple[str, ...]) -> float | NothingToGuard:
    return torque_borne(torque, lock, shaft_form, bushes, "bonded_on_round", "bonded_on_flat", "bonded_on_key")


RULE = Rule(
    question="Does the bonded joint bear the motor's torque?",
    needs=("motor.shaft_torque", "drive_pulley.lock", "motor.shaft_form", "bush*.slit"),
    quantity=quantity,
    measures="torque that a bonded joint has to carry",
    formula="T = K_t·I where it is the lock in use, else 0",
    unit="N_m",
    hard=AtMost(Bound("torque_lock.bonded_hub_holds.most", 3.0, "common practice, no source")),
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
                "motor.shaft_torque": (2.1, 2.25, 2.4),
                "drive_pulley.lock": "bonded",
                "motor.shaft_form": "round",
            },
            "holds",
            0.75,
        ),
        Example(
            "a fifth too much",
            {"motor.shaft_torque": 3.6, "drive_pulley.lock": "bonded", "motor.shaft_form": "round"},
            "fails",
            -0.6,
        ),
        Example(
            "exactly on the limit",
            {"motor.shaft_torque": 3.0, "drive_pulley.lock": "bonded", "motor.shaft_form": "round"},
            "holds",
            0.0,
        ),
        Example(
            "another lock carries it",
            {"motor.shaft_torque": 3.6, "drive_pulley.lock": "key", "motor.shaft_form": "key"},
            "excused",
        ),
        Example("torque unread", {"drive_pulley.lock": "bonded", "motor.shaft_form": "round"}, "undecided"),
    ),
)
