"""A short key carries all of the torque on a few millimetres and shears. Ten millimetres inside the pulley are the
least.
"""

from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity


def quantity(key_length: float) -> float:
    return key_length


RULE = Rule(
    question="Is the key long enough?",
    needs=("key.key_length",),
    quantity=quantity,
    measures="length of the key",
    formula="l_key",
    unit="mm",
    hard=AtLeast(Bound("torque_lock.key_is_long_enough.least", 10.0, "common practice, no source")),
    severity=Severity.INJURY,
    caution="A key that shears lets the pulley spin, and the brake is gone.",
    remedy_hint="a longer key",
    examples=(
        Example("14 mm key", {"key.key_length": (13.5, 14.0, 14.5)}, "holds", 4.0),
        Example(
            "8 mm key",
            {"key.key_length": 8.0},
            "fails",
            -2.0,
            two_numbers="3 mm key and 3 mm keyway: comparing widths says yes",
        ),
        Example("exactly on the limit", {"key.key_length": 10.0}, "holds", 0.0),
        Example("length unread", {}, "undecided"),
    ),
)
