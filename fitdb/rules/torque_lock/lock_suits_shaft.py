"""Key on key, flat on flat, screw on flat. A keyed bore has nothing to bear on a flat shaft, and a D-shaped bore does
not even go on a round one.
"""

from fitdb.formulas.shaft_locks import lock_in_use
from fitdb.model.rule import Example, OneOf, Published, Rule, Severity


def quantity(lock: str, shaft_form: str, bushes: tuple[str, ...]) -> str:
    return lock_in_use(lock, shaft_form, bushes)


RULE = Rule(
    question="Does the pulley's lock find its counterpart on the shaft?",
    needs=("drive_pulley.lock", "motor.shaft_form", "bush*.slit"),
    quantity=quantity,
    measures="how the pulley is held, and what the shaft offers it",
    formula="lock on form",
    unit="",
    hard=OneOf(
        "torque_lock.lock_suits_shaft",
        (
            "key_on_key",
            "flat_on_flat",
            "set_screw_on_flat",
            "set_screw_on_round",
            "set_screw_on_key",
            "bonded_on_round",
            "bonded_on_flat",
            "bonded_on_key",
            "bush",
        ),
        "common practice, no source",
    ),
    severity=Severity.INJURY,
    published=(Published("parallel keys and their keyways", "ISO/R 773, DIN 6885-1"),),
    caution=(
        "On this build the motor is the brake. A pulley that spins on its shaft is a brake that is gone; one that jams "
        "locks the wheel."
    ),
    remedy_hint="a pulley for this shaft, a flat filed on the shaft (cannot be undone), or retaining compound",
    examples=(
        Example("keyed pulley on a keyed shaft", {"drive_pulley.lock": "key", "motor.shaft_form": "key"}, "holds"),
        Example(
            "keyed bore on a shaft with one flat",
            {"drive_pulley.lock": "key", "motor.shaft_form": "flat"},
            "fails",
            two_numbers="8 mm bore, 8 mm shaft: comparing two numbers says yes",
        ),
        Example("round bore, nothing to hold it", {"drive_pulley.lock": "round", "motor.shaft_form": "round"}, "fails"),
        Example(
            "keyed bore with a bush between: the bush has to hold",
            {"drive_pulley.lock": "key", "motor.shaft_form": "key", "bush*.slit": ("no",)},
            "holds",
        ),
        Example(
            "form of the shaft not seen", {"drive_pulley.lock": "key", "motor.shaft_form": "key|flat"}, "undecided"
        ),
        Example("form of the shaft unread", {"drive_pulley.lock": "key"}, "undecided"),
    ),
)
