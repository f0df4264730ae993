"""With the motor pushed all the way in, the belt has to drop over the flanges by hand. Without that room it is levered
on with a screwdriver, which kinks its cords: it looks whole and breaks later. No room is needed where the motor pulley
can be pushed on the shaft together with the belt.
"""

from fitdb.model.rule import AtLeast, Bound, Constant, Example, Rule, Severity, Shape


def quantity(centre: float, centre_min: float, pulley_goes_on_with_belt: str, slip_on: float) -> float:
    return centre - centre_min + (slip_on if pulley_goes_on_with_belt == "yes" else 0.0)


RULE = Rule(
    question="Can the belt be slipped on by hand?",
    needs=("belt.centre_distance", "motor_mount.centre_min", "drive_pulley.slides_on_with_belt"),
    quantity=quantity,
    measures="centre distance of the taut belt less the least of the slot (and the slip-on room, if none is needed)",
    formula="C − C_min",
    unit="mm",
    hard=AtLeast(Bound("belt_length.belt_slips_on.least", 2.0, "common practice, no source")),
    severity=Severity.DAMAGE,
    shape=Shape.STEPPED,
    constants=(Constant("slip_on", 2.0, "mm", "common practice, no source"),),
    caution="Never lever a belt over a flange: a kinked cord breaks without warning, and the motor is the brake.",
    remedy_hint="the next longer belt; buy two neighbouring lengths",
    examples=(
        Example(
            "265 mm belt on 14 and 36 teeth: 67.7 mm in a slot from 61 mm",
            {
                "belt.centre_distance": (67.4, 67.72, 68.0),
                "motor_mount.centre_min": (60.5, 61.0, 61.5),
                "drive_pulley.slides_on_with_belt": "no",
            },
            "holds",
            4.72,
        ),
        Example(
            "62.5 mm in a slot from 62 mm",
            {
                "belt.centre_distance": 62.5,
                "motor_mount.centre_min": 62.0,
                "drive_pulley.slides_on_with_belt": "no",
            },
            "fails",
            -1.5,
            two_numbers="62.5 lies between 62 and 72: comparing with the ends of the slot says yes",
        ),
        Example(
            "the same, but pulley and belt go on together",
            {
                "belt.centre_distance": 62.5,
                "motor_mount.centre_min": 62.0,
                "drive_pulley.slides_on_with_belt": "yes",
            },
            "holds",
            0.5,
        ),
        Example(
            "exactly on the limit",
            {
                "belt.centre_distance": 64.0,
                "motor_mount.centre_min": 62.0,
                "drive_pulley.slides_on_with_belt": "no",
            },
            "holds",
            0.0,
        ),
        Example("slot unread", {"belt.centre_distance": 64.0, "drive_pulley.slides_on_with_belt": "no"}, "undecided"),
    ),
)
