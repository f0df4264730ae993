"""How hard the board brakes when the charge that the pack may take is the limit. The faster it goes the weaker that
brake is: the power is fixed, so the force falls with the speed. Small packs brake badly at speed.
"""

from fitdb.formulas.ride import braking_charge, charge_deceleration
from fitdb.model.rule import Constant, Shape, SurveyLine


def quantity(
    limits: tuple[float, ...],
    channels: tuple[int, ...],
    kvs: tuple[float, ...],
    full_volts: float,
    speed: float,
    rider: float,
    board: float,
    rolling: float,
    drag_area: float,
    half_full: float,
    efficiency: float,
) -> float:
    charge = braking_charge(limits, channels, len(kvs))
    return charge_deceleration(charge, full_volts * half_full, efficiency, speed, rider + board, rolling, drag_area)


LINE = SurveyLine(
    target="drive.charge_braking",
    needs=(
        "controller*.braking_charge_limit",
        "controller*.channels",
        "motor*.velocity_constant",
        "pack.full_volts",
        "drive.ridden_speed",
        "rider.mass",
        "rider.board_mass",
        "wheel.rolling_coefficient",
        "rider.drag_area",
    ),
    quantity=quantity,
    measures="deceleration at the speed ridden that the braking charge allows, road and air helping",
    formula="a = (Σ I·channels · V/(η·v) + road load)/m",
    unit="m/s2",
    source="balance of power; η and the volts of the half-full pack are common practice",
    shape=Shape.SAMPLED,
    constants=(
        Constant("half_full", 0.91, "1", "common practice, no source"),
        Constant("efficiency", 0.80, "1", "common practice, no source"),
    ),
    examples=(
        (
            {
                "controller*.braking_charge_limit": (6.0,),
                "controller*.channels": (2,),
                "motor*.velocity_constant": (190.0, 190.0),
                "pack.full_volts": 50.4,
                "drive.ridden_speed": 20.0,
                "rider.mass": 87.0,
                "rider.board_mass": 10.0,
                "wheel.rolling_coefficient": 0.02,
                "rider.drag_area": 0.55,
            },
            1.5776,
        ),
    ),
)
