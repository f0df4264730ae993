"""A key that sits in both keyways, with a set screw pressing on it, carries about 8 N m. A stepped key carries 30 %
less, for its step is where it shears.
"""

from fitdb.formulas.shaft_locks import torque_borne
from fitdb.model.rule import AtMost, Bound, Constant, Example, NothingToGuard, Rule, Severity


def quantity(
    torque: float,
    lock: str,
    shaft_form: str,
    keys: tuple[str, ...],
    bushes: tuple[str, ...],
    stepped_share: float,
) -> float | NothingToGuard:
    """Torque on the key, raised to what a whole key would have to be good for where the key is stepped."""
    borne = torque_borne(torque, lock, shaft_form, bushes, "key_on_key")
    if isinstance(borne, NothingToGuard):
        return borne
    return borne / (stepped_share if "stepped" in keys else 1.0)


RULE = Rule(
    question="Does the key bear the motor's torque?",
    needs=("motor.shaft_torque", "drive_pulley.lock", "motor.shaft_form", "key*.key_form", "bush*.slit"),
    quantity=quantity,
    measures="torque that the key has to carry, over the share that its form leaves it",
    formula="T = K_t·I / k where a key is the lock in use, else 0",
    unit="N_m",
    hard=AtMost(Bound("torque_lock.key_holds.most", 8.0, "common practice, no source")),
    severity=Severity.INJURY,
    constants=(Constant("stepped_share", 0.7, "1", "common practice, no source"),),
    caution=(
        "On this build the motor is the brake. A key that shears lets the pulley spin, and the brake is gone; one that "
        "jams locks the wheel."
    ),
    remedy_hint="less motor current, or a wider key",
    examples=(
        Example(
            "80 A through a 170 rpm/V motor",
            {"motor.shaft_torque": (4.3, 4.49, 4.7), "drive_pulley.lock": "key", "motor.shaft_form": "key"},
            "holds",
            3.51,
        ),
        Example(
            "a stepped key at 6 N m",
            {
                "motor.shaft_torque": 6.0,
                "drive_pulley.lock": "key",
                "motor.shaft_form": "key",
                "key*.key_form": ("stepped",),
            },
            "fails",
            -0.571,
            two_numbers="6 is less than 8: comparing two numbers says yes",
        ),
        Example(
            "exactly on the limit",
            {"motor.shaft_torque": 8.0, "drive_pulley.lock": "key", "motor.shaft_form": "key"},
            "holds",
            0.0,
        ),
        Example("torque unread", {"drive_pulley.lock": "key", "motor.shaft_form": "key"}, "undecided"),
    ),
)
