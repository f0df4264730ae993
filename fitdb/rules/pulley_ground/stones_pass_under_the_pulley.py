"""Stones, kerb edges and wet leaves are drawn into a belt that runs close to the road, and cut it. Eight
millimetres are the least, twelve are good.
"""

import math

from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity


def quantity(effective_radius: float, teeth: int, tooth_pitch: float, flange_height: float) -> float:
    return effective_radius - 0.5 * teeth * tooth_pitch / math.pi - flange_height


RULE = Rule(
    question="Do stones pass under the pulley?",
    needs=("wheel.effective_radius", "pulley.teeth", "pulley.tooth_pitch", "pulley.flange_height"),
    quantity=quantity,
    measures="road to the rim of the driven pulley, rider on the board",
    formula="R_eff − z·p/(2π) − f",
    unit="mm",
    hard=AtLeast(Bound("pulley_ground.stones_pass_under_the_pulley.least", 8.0, "common practice, no source")),
    comfort=AtLeast(Bound("pulley_ground.stones_pass_under_the_pulley.comfort", 12.0, "common practice, no source")),
    severity=Severity.DAMAGE,
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
            5.352,
        ),
        Example(
            "exactly on the limit",
            {
                "wheel.effective_radius": 39.64788975654116,
                "pulley.teeth": 36,
                "pulley.tooth_pitch": 5.0,
                "pulley.flange_height": 3.0,
            },
            "holds",
            0.0,
        ),
        Example(
            "36 teeth under a 76 mm wheel",
            {
                "wheel.effective_radius": 38.0,
                "pulley.teeth": 36,
                "pulley.tooth_pitch": 5.0,
                "pulley.flange_height": 3.0,
            },
            "fails",
            -1.648,
            two_numbers="a 63 mm pulley is smaller than a 76 mm wheel: comparing two diameters says yes",
        ),
        Example(
            "worn, read with a ruler",
            {
                "wheel.effective_radius": (38.5, 40.0, 41.0),
                "pulley.teeth": 36,
                "pulley.tooth_pitch": 5.0,
                "pulley.flange_height": 3.0,
            },
            "undecided",
            0.352,
        ),
        Example(
            "flange unread",
            {"wheel.effective_radius": 45.0, "pulley.teeth": 36, "pulley.tooth_pitch": 5.0},
            "undecided",
        ),
    ),
)
