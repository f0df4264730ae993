"""The sleeve holds by sitting tightly on the can. A loose one creeps round under braking until the ribs shear; one that
is far too tight tears when it is pressed on.
"""

from fitdb.model.rule import Between, Bound, Example, Rule, Severity


def quantity(inner_diameter: float, can_diameter: float) -> float:
    return inner_diameter - can_diameter


RULE = Rule(
    question="Does the sleeve sit tightly on the can?",
    needs=("hub_sleeve.inner_diameter", "hub_motor.can_diameter"),
    quantity=quantity,
    measures="inner diameter of the sleeve less the diameter of the can",
    formula="Δ = d_sleeve − d_can",
    unit="mm",
    hard=Between(
        Bound("hub_motor.sleeve_fits_the_can.low", -0.8, "common practice, no source"),
        Bound("hub_motor.sleeve_fits_the_can.high", 0.2, "common practice, no source"),
    ),
    severity=Severity.DAMAGE,
    examples=(
        Example(
            "80 mm sleeve, cast 0.3 mm small, on an 80 mm can",
            {"hub_sleeve.inner_diameter": (79.4, 79.7, 80.0), "hub_motor.can_diameter": (79.9, 80.0, 80.1)},
            "holds",
            0.5,
        ),
        Example(
            "exactly on the limit", {"hub_sleeve.inner_diameter": 80.2, "hub_motor.can_diameter": 80.0}, "holds", 0.0
        ),
        Example(
            "83 mm sleeve on an 80 mm can",
            {"hub_sleeve.inner_diameter": 83.0, "hub_motor.can_diameter": 80.0},
            "fails",
            -2.8,
            two_numbers="80 is less than 83: comparing two diameters says that it goes on",
        ),
        Example(
            "read with a ruler",
            {"hub_sleeve.inner_diameter": (79.0, 80.0, 81.0), "hub_motor.can_diameter": 80.0},
            "undecided",
            0.2,
        ),
        Example("sleeve unread", {"hub_motor.can_diameter": 80.0}, "undecided"),
    ),
)
