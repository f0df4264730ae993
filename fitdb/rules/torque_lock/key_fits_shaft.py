"""A key that is bought apart has to fit the slot in the shaft as well. In a slot that is too wide it rolls over under
the first hard brake.
"""

from fitdb.model.rule import Between, Bound, Example, Published, Rule, Severity


def quantity(shaft_slot: float, key_side: float) -> float:
    return shaft_slot - key_side


RULE = Rule(
    question="Does the key fit the slot in the shaft?",
    needs=("motor.key_width", "key.shaft_side_width"),
    quantity=quantity,
    measures="width of the slot in the shaft less width of the key on that side",
    formula="Δ = b_slot − b_key",
    unit="mm",
    hard=Between(
        Bound("torque_lock.key_fits_shaft.least", -0.1, "common practice, no source"),
        Bound("torque_lock.key_fits_shaft.most", 0.1, "common practice, no source"),
    ),
    severity=Severity.INJURY,
    published=(Published("keyway in the shaft 1.2, 1.8, 2.5 mm deep for keys of 2, 3, 4 mm", "DIN 6885-1"),),
    caution="A key that rolls over lets the pulley spin, and the brake is gone.",
    remedy_hint="a key, or a stepped key, of the right width",
    examples=(
        Example(
            "2 mm side in a 2 mm slot", {"motor.key_width": 2.0, "key.shaft_side_width": (1.98, 2.0, 2.02)}, "holds"
        ),
        Example(
            "2 mm key in a 3 mm slot",
            {"motor.key_width": 3.0, "key.shaft_side_width": 2.0},
            "fails",
            -0.9,
            two_numbers="2 is less than 3: comparing two numbers says it goes in",
        ),
        Example("exactly on the limit", {"motor.key_width": 3.1, "key.shaft_side_width": 3.0}, "holds", 0.0),
        Example("slot unread", {"key.shaft_side_width": 3.0}, "undecided"),
    ),
)
