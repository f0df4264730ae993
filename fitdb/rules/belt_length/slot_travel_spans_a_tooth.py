"""One tooth of a 5 mm belt moves the motor by 2.6 mm. A slot shorter than that may lie between two belt lengths, one
too short and the next too long. With 5.6 mm of travel some length always suits, if it is sold.
"""

from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity


def quantity(centre_min: float, centre_max: float) -> float:
    return centre_max - centre_min


RULE = Rule(
    question="Is the slot long enough that some belt length suits it?",
    needs=("motor_mount.centre_min", "motor_mount.centre_max"),
    quantity=quantity,
    measures="travel of the motor in its slot",
    formula="C_max − C_min",
    unit="mm",
    hard=AtLeast(Bound("belt_length.slot_travel_spans_a_tooth.least", 2.6, "common practice, no source")),
    comfort=AtLeast(Bound("belt_length.slot_travel_spans_a_tooth.comfort", 5.6, "common practice, no source")),
    severity=Severity.NUISANCE,
    remedy_hint="lengthen the slot, or an idler",
    examples=(
        Example("10 mm of slot", {"motor_mount.centre_min": 61.0, "motor_mount.centre_max": 71.0}, "holds", 7.4),
        Example("2 mm of slot", {"motor_mount.centre_min": 68.0, "motor_mount.centre_max": 70.0}, "fails", -0.6),
        Example("exactly on the limit", {"motor_mount.centre_min": 68.0, "motor_mount.centre_max": 70.6}, "holds", 0.0),
        Example("one end unread", {"motor_mount.centre_min": 68.0}, "undecided"),
    ),
)
