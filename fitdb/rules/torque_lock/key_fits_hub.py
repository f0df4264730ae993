"""The key has to be as wide as the keyway of the pulley. Motors with 8 mm shafts come with 2 mm and with 3 mm keys, so
the key is measured, never guessed from the shaft.
"""

from fitdb.formulas.shaft_locks import lock_in_use
from fitdb.model.rule import NOTHING_TO_GUARD, Between, Bound, Example, NothingToGuard, Published, Rule, Severity


def quantity(
    lock: str,
    shaft_form: str,
    keyway_width: float,
    key_width: float,
    loose_keys: tuple[float, ...],
    bushes: tuple[str, ...],
) -> float | NothingToGuard:
    """Keyway less key; nothing to compare where the pulley does not hold by a key."""
    if lock_in_use(lock, shaft_form, bushes) != "key_on_key":
        return NOTHING_TO_GUARD
    return keyway_width - (loose_keys[0] if loose_keys else key_width)


RULE = Rule(
    question="Does the key fit the keyway of the pulley?",
    needs=(
        "drive_pulley.lock",
        "motor.shaft_form",
        "drive_pulley.keyway_width",
        "motor.key_width",
        "key*.hub_side_width",
        "bush*.slit",
    ),
    quantity=quantity,
    measures="width of the pulley's keyway less width of the key (nothing where no key is used)",
    formula="Δ = b_keyway − b_key",
    unit="mm",
    hard=Between(
        Bound("torque_lock.key_fits_hub.least", -0.1, "common practice, no source"),
        Bound("torque_lock.key_fits_hub.most", 0.1, "common practice, no source"),
    ),
    severity=Severity.INJURY,
    published=(
        Published(
            "keys of 2, 3, 4 mm for shafts over 6 to 8, 8 to 10, 10 to 12 mm; small motors often differ", "DIN 6885-1"
        ),
    ),
    caution="A loose key beats its keyway wide and shears; the pulley then spins and the brake is gone.",
    remedy_hint="a stepped key, at the price of torque, or a pulley with the right keyway",
    examples=(
        Example(
            "3 mm key in a 3 mm keyway",
            {
                "drive_pulley.lock": "key",
                "motor.shaft_form": "key",
                "drive_pulley.keyway_width": (2.95, 3.0, 3.05),
                "motor.key_width": (2.97, 3.0, 3.03),
            },
            "holds",
            0.1,
        ),
        Example(
            "2 mm key in a 3 mm keyway, both on 8 mm",
            {
                "drive_pulley.lock": "key",
                "motor.shaft_form": "key",
                "drive_pulley.keyway_width": 3.0,
                "motor.key_width": 2.0,
            },
            "fails",
            -0.9,
            two_numbers="8 mm shaft and 8 mm bore: comparing two numbers says yes",
        ),
        Example(
            "the same with a stepped key",
            {
                "drive_pulley.lock": "key",
                "motor.shaft_form": "key",
                "drive_pulley.keyway_width": 3.0,
                "motor.key_width": 2.0,
                "key*.hub_side_width": (3.0,),
            },
            "holds",
            0.1,
        ),
        Example(
            "exactly on the limit",
            {
                "drive_pulley.lock": "key",
                "motor.shaft_form": "key",
                "drive_pulley.keyway_width": 3.1,
                "motor.key_width": 3.0,
            },
            "holds",
            0.0,
        ),
        Example(
            "key of the motor unread",
            {"drive_pulley.lock": "key", "motor.shaft_form": "key", "drive_pulley.keyway_width": 3.0},
            "undecided",
        ),
    ),
)
