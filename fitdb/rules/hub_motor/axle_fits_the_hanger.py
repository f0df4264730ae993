"""The axle of a hub motor does not turn: it is pushed into the end of a hanger made for it, and clamped. An ordinary
hanger has an axle of its own and takes no other; a loose one turns in its seat and cuts the leads.
"""

from fitdb.model.rule import Between, Bound, Example, Rule, Severity


def quantity(end_bore: float, axle: float) -> float:
    return end_bore - axle


RULE = Rule(
    question="Does the end of the hanger hold the motor's axle?",
    needs=("hanger.end_bore", "hub_motor.axle_diameter"),
    quantity=quantity,
    measures="bore in the end of the hanger less the diameter of the motor's axle",
    formula="s = d_bore − d_axle",
    unit="mm",
    hard=Between(
        Bound("hub_motor.axle_fits_the_hanger.low", 0.0, "common practice, no source"),
        Bound("hub_motor.axle_fits_the_hanger.high", 0.1, "common practice, no source"),
    ),
    severity=Severity.INJURY,
    caution="Pull at the wheel by hand and try to turn its axle before every ride until nothing moves.",
    remedy_hint="the truck that the motor was made for, taken over as a whole",
    examples=(
        Example(
            "12 mm axle in a bore of 12.05 mm",
            {"hanger.end_bore": (12.04, 12.05, 12.06), "hub_motor.axle_diameter": (11.98, 12.0, 12.0)},
            "holds",
            0.05,
        ),
        Example("exactly on the limit", {"hanger.end_bore": 12.0, "hub_motor.axle_diameter": 12.0}, "holds", 0.0),
        Example(
            "a hanger with an axle of its own has no bore",
            {"hanger.end_bore": 0.0, "hub_motor.axle_diameter": 12.0},
            "fails",
            -12.0,
        ),
        Example(
            "14 mm bore, 12 mm axle",
            {"hanger.end_bore": 14.0, "hub_motor.axle_diameter": 12.0},
            "fails",
            -1.9,
            two_numbers="12 is less than 14: comparing two diameters says that it goes in",
        ),
        Example("end of the hanger unread", {"hub_motor.axle_diameter": 12.0}, "undecided"),
    ),
)
