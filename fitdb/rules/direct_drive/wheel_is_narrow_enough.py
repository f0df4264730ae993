"""The can takes up part of the axle, and only what is left is there for the wheel. A wheel that is too wide pushes the
nut off the thread.
"""

from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity


def quantity(usable_width: float, wheel_width: float) -> float:
    return usable_width - wheel_width


RULE = Rule(
    question="Is there room for the width of the wheel outside the can?",
    needs=("direct_drive.usable_wheel_width", "wheel.width"),
    quantity=quantity,
    measures="width that the drive leaves for a wheel, less the width of the wheel",
    formula="s = w_usable − w_wheel",
    unit="mm",
    hard=AtLeast(Bound("direct_drive.wheel_is_narrow_enough.least", 0.0, "common practice, no source")),
    severity=Severity.INJURY,
    caution="The nut's nylon ring must be fully on the thread, or the wheel comes off.",
    remedy_hint="a narrower wheel",
    two_numbers_suffice="one width against another; the spread of both readings is all there is to it",
    examples=(
        Example(
            "52 mm wheel, 55 mm left",
            {"direct_drive.usable_wheel_width": (54.5, 55.0, 55.5), "wheel.width": (51.5, 52.0, 52.5)},
            "holds",
            3.0,
        ),
        Example("exactly on the limit", {"direct_drive.usable_wheel_width": 55.0, "wheel.width": 55.0}, "holds", 0.0),
        Example(
            "60 mm wheel, 55 mm left", {"direct_drive.usable_wheel_width": 55.0, "wheel.width": 60.0}, "fails", -5.0
        ),
        Example("width of the wheel unread", {"direct_drive.usable_wheel_width": 55.0}, "undecided"),
    ),
)
