"""Between its two rims the can leaves a seat for the sleeve. A longer sleeve does not go in, a shorter one wanders
along the can and rubs on a rim.
"""

from fitdb.model.rule import Between, Bound, Example, Rule, Severity


def quantity(seat_length: float, sleeve_length: float) -> float:
    return seat_length - sleeve_length


RULE = Rule(
    question="Is the sleeve as long as its seat on the can?",
    needs=("hub_motor.seat_length", "hub_sleeve.length"),
    quantity=quantity,
    measures="length of the seat on the can less the length of the sleeve",
    formula="s = l_seat − l_sleeve",
    unit="mm",
    hard=Between(
        Bound("hub_motor.sleeve_is_as_long_as_its_seat.low", 0.0, "common practice, no source"),
        Bound("hub_motor.sleeve_is_as_long_as_its_seat.high", 2.0, "common practice, no source"),
    ),
    severity=Severity.DAMAGE,
    examples=(
        Example(
            "51 mm sleeve, 52 mm seat",
            {"hub_motor.seat_length": (51.9, 52.0, 52.1), "hub_sleeve.length": (50.7, 51.0, 51.3)},
            "holds",
            1.0,
        ),
        Example("exactly on the limit", {"hub_motor.seat_length": 52.0, "hub_sleeve.length": 52.0}, "holds", 0.0),
        Example(
            "45 mm sleeve, 52 mm seat",
            {"hub_motor.seat_length": 52.0, "hub_sleeve.length": 45.0},
            "fails",
            -5.0,
            two_numbers="45 is less than 52: comparing two lengths says that it goes in",
        ),
        Example("sleeve unread", {"hub_motor.seat_length": 52.0}, "undecided"),
    ),
)
