"""The housing of the gears hangs below the axle, beside the wheel. Where it is nearly as large as the wheel it strikes
every stone, and the case cracks.
"""

from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity


def quantity(effective_radius: float, housing_radius: float) -> float:
    return effective_radius - housing_radius


RULE = Rule(
    question="Does the housing stay clear of the ground?",
    needs=("wheel.effective_radius", "gear_drive.housing_radius"),
    quantity=quantity,
    measures="radius of the wheel as worn and sunk, less the reach of the housing below the axle",
    formula="g = R_eff − r_housing",
    unit="mm",
    hard=AtLeast(Bound("gear_drive.housing_clears_the_ground.least", 8.0, "common practice, no source")),
    severity=Severity.DAMAGE,
    remedy_hint="larger wheels",
    examples=(
        Example(
            "150 mm tyre, housing reaches 48 mm down",
            {"wheel.effective_radius": (67.0, 70.0, 73.0), "gear_drive.housing_radius": 48.0},
            "holds",
            14.0,
        ),
        Example(
            "exactly on the limit", {"wheel.effective_radius": 56.0, "gear_drive.housing_radius": 48.0}, "holds", 0.0
        ),
        Example(
            "107 mm wheel, ridden, housing reaches 48 mm down",
            {"wheel.effective_radius": (50.5, 51.5, 52.5), "gear_drive.housing_radius": 48.0},
            "fails",
            -4.5,
            two_numbers="48 is less than half of 107: comparing two radii says yes",
        ),
        Example(
            "wear of the wheel unread",
            {"wheel.effective_radius": (52.0, 55.0, 58.0), "gear_drive.housing_radius": 46.0},
            "undecided",
            1.0,
        ),
        Example("housing unread", {"wheel.effective_radius": 56.0}, "undecided"),
    ),
)
