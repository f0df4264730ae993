"""The last gear runs on the axle of the hanger and turns the wheel with it. On a thinner axle it wobbles, the teeth
meet at their edges, and the case cracks or the wheel comes off.
"""

from fitdb.model.rule import Between, Bound, Example, Rule, Severity


def quantity(bore: float, axle: float) -> float:
    return bore - axle


RULE = Rule(
    question="Does the axle fill the bore of the last gear?",
    needs=("gear_drive.axle_bore", "hanger.axle_diameter"),
    quantity=quantity,
    measures="bore that runs on the axle, less the diameter of the axle",
    formula="s = d_bore − d_axle",
    unit="mm",
    hard=Between(
        Bound("gear_drive.axle_fits_the_last_gear.low", 0.0, "common practice, no source"),
        Bound("gear_drive.axle_fits_the_last_gear.high", 0.1, "common practice, no source"),
    ),
    severity=Severity.INJURY,
    caution="Nut fully on the thread, new nut after a few uses. Check after 1, 10 and 100 km.",
    remedy_hint="the truck that the gear drive was made for, taken over as a whole",
    examples=(
        Example(
            "10 mm axle in a 10 mm bore",
            {"gear_drive.axle_bore": (10.0, 10.0, 10.015), "hanger.axle_diameter": (9.964, 10.0, 10.0)},
            "holds",
            0.0,
        ),
        Example("exactly on the limit", {"gear_drive.axle_bore": 8.1, "hanger.axle_diameter": 8.0}, "holds", 0.0),
        Example(
            "8 mm axle in a 10 mm bore",
            {"gear_drive.axle_bore": 10.0, "hanger.axle_diameter": 8.0},
            "fails",
            -1.9,
            two_numbers="8 is less than 10: comparing two diameters says that it goes on",
        ),
        Example("10 mm axle, 8 mm bore", {"gear_drive.axle_bore": 8.0, "hanger.axle_diameter": 10.0}, "fails", -2.0),
        Example(
            "an inch axle of 5/16 in, read with a ruler",
            {"gear_drive.axle_bore": 8.0, "hanger.axle_diameter": (7.5, 8.0, 8.5)},
            "undecided",
            0.0,
        ),
        Example("axle unread", {"gear_drive.axle_bore": 10.0}, "undecided"),
    ),
)
