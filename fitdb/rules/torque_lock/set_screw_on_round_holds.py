"""A set screw that presses on a round shaft, or beside the slot of a shaft whose key has been left out, only holds by
friction: 1 N m. File a flat for it (that cannot be undone), or let something else carry the torque.
"""

from fitdb.formulas.shaft_locks import torque_borne
from fitdb.model.rule import AtMost, Bound, Example, NothingToGuard, Rule, Severity


def quantity(torque: float, lock: str, shaft_form: str, bushes: tuple[str, ...]) -> float | NothingToGuard:
    return torque_borne(torque, lock, shaft_form, bushes, "set_screw_on_round", "set_screw_on_key")


RULE = Rule(
    question="Does a set screw on a shaft without a flat bear the motor's torque?",
    needs=("motor.shaft_torque", "drive_pulley.lock", "motor.shaft_form", "bush*.slit"),
    quantity=quantity,
    measures="torque that a set screw without a flat has to carry",
    formula="T = K_t·I where it is the lock in use, else 0",
    unit="N_m",
    hard=AtMost(Bound("torque_lock.set_screw_on_round_holds.most", 1.0, "common practice, no source")),
    severity=Severity.INJURY,
    caution=(
        "On this build the motor is the brake. A pulley that spins on its shaft is a brake that is gone; one that jams "
        "locks the wheel."
    ),
    remedy_hint="file a flat, or retaining compound",
    examples=(
        Example(
            "well below",
            {
                "motor.shaft_torque": (0.7, 0.75, 0.8),
                "drive_pulley.lock": "set_screw",
                "motor.shaft_form": "round",
            },
            "holds",
            0.25,
        ),
        Example(
            "a fifth too much",
            {"motor.shaft_torque": 1.2, "drive_pulley.lock": "set_screw", "motor.shaft_form": "round"},
            "fails",
            -0.2,
            two_numbers="8 mm bore and 8 mm shaft: comparing two numbers says yes",
        ),
        Example(
            "exactly on the limit",
            {"motor.shaft_torque": 1.0, "drive_pulley.lock": "set_screw", "motor.shaft_form": "round"},
            "holds",
            0.0,
        ),
        Example(
            "another lock carries it",
            {"motor.shaft_torque": 1.2, "drive_pulley.lock": "key", "motor.shaft_form": "key"},
            "excused",
        ),
        Example("torque unread", {"drive_pulley.lock": "set_screw", "motor.shaft_form": "round"}, "undecided"),
    ),
)
