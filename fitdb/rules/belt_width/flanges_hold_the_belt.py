"""Two of the four sides have to have a flange, on one pulley or shared between both. A belt with no guide at all walks
off sideways, and on this build the belt is the brake.
"""

from fitdb.model.rule import AtLeast, Bound, Constant, Example, Rule, Severity, Shape


def quantity(drive_flanges: int, driven_flange_height: float, bare_height: float) -> float:
    """Flanges in all; a driven pulley whose edge stands no higher over the pitch line than a belt's back has none."""
    return float(drive_flanges) + (2.0 if driven_flange_height > bare_height else 0.0)


RULE = Rule(
    question="Is the belt kept on by flanges?",
    needs=("drive_pulley.flanges", "driven_pulley.flange_height"),
    quantity=quantity,
    measures="flanged sides of both pulleys together",
    formula="n = n_drive + (2 if the driven flange stands over the belt's back)",
    unit="",
    hard=AtLeast(Bound("belt_width.flanges_hold_the_belt.least", 2, "common practice, no source")),
    severity=Severity.DAMAGE,
    shape=Shape.STEPPED,
    constants=(
        Constant("bare_height", 2.2, "mm", "common practice, no source: no belt up to 8 mm pitch has a higher back"),
    ),
    caution="On this build the motor is the brake; a belt that walks off takes the brake with it.",
    remedy_hint="a motor pulley with two flanges",
    examples=(
        Example(
            "two flanges on the motor pulley, driven pulley bare",
            {"drive_pulley.flanges": 2, "driven_pulley.flange_height": 1.13},
            "holds",
            0,
        ),
        Example(
            "both pulleys flanged",
            {"drive_pulley.flanges": 2, "driven_pulley.flange_height": (2.5, 3.0, 3.5)},
            "holds",
            2,
        ),
        Example(
            "one flange on the motor pulley, driven pulley bare",
            {"drive_pulley.flanges": 1, "driven_pulley.flange_height": 1.13},
            "fails",
            -1,
        ),
        Example("flanges not counted", {"driven_pulley.flange_height": 1.13}, "undecided"),
    ),
)
