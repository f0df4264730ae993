"""A pulley that can touch the road throws the belt or locks the wheel, and with the belt the brake is gone."""

import math

from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity


def quantity(effective_radius: float, teeth: int, tooth_pitch: float, flange_height: float) -> float:
    return effective_radius - 0.5 * teeth * tooth_pitch / math.pi - flange_height


RULE = Rule(
    question="Does the pulley stay off the road?",
    needs=("wheel.effective_radius", "pulley.teeth", "pulley.tooth_pitch", "pulley.flange_height"),
    quantity=quantity,
    measures="road to the rim of the driven pulley, rider on the board",
    formula="R_eff − z·p/(2π) − f",
    unit="mm",
    hard=AtLeast(Bound("pulley_ground.pulley_stays_off_the_road.least", 0.0, "common practice, no source")),
    severity=Severity.INJURY,
    caution=(
        "Wheels up on a firm stand before power. Fingers, hair, laces, sleeves and cables away; unplug the "
        "pack before touching belt, pulley or motor."
    ),
    examples=(
        Example(
            "36 teeth under a 90 mm wheel",
            {
                "wheel.effective_radius": (44.5, 45.0, 45.0),
                "pulley.teeth": 36,
                "pulley.tooth_pitch": 5.0,
                "pulley.flange_height": 3.0,
            },
            "holds",
            13.352,
        ),
        Example(
            "exactly on the limit",
            {
                "wheel.effective_radius": 31.64788975654116,
                "pulley.teeth": 36,
                "pulley.tooth_pitch": 5.0,
                "pulley.flange_height": 3.0,
            },
            "holds",
            0.0,
        ),
        Example(
            "44 teeth under a worn 76 mm wheel",
            {
                "wheel.effective_radius": 36.0,
                "pulley.teeth": 44,
                "pulley.tooth_pitch": 5.0,
                "pulley.flange_height": 3.0,
            },
            "fails",
            -2.014,
            two_numbers="a 70 mm pulley is smaller than a 76 mm wheel: comparing two diameters says yes",
        ),
        Example(
            "wheel unread", {"pulley.teeth": 36, "pulley.tooth_pitch": 5.0, "pulley.flange_height": 3.0}, "undecided"
        ),
    ),
)
