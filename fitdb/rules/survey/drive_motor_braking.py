"""How hard the board brakes when the motor current set for braking is the limit."""

from fitdb.formulas.ride import pull_deceleration, wheel_pull
from fitdb.model.rule import SurveyLine


def quantity(
    kvs: tuple[float, ...],
    current: float,
    conventions: tuple[str, ...],
    ratio: float,
    diameter: float,
    speed: float,
    rider: float,
    board: float,
    rolling: float,
    drag_area: float,
) -> float:
    # The loss of the drive helps a brake, by how much nobody knows: it is left out.
    pull = wheel_pull(kvs, current, conventions[0] if conventions else "block", ratio, diameter, 1.0)
    return pull_deceleration(pull, speed, rider + board, rolling, drag_area)


LINE = SurveyLine(
    target="drive.motor_braking",
    needs=(
        "motor*.velocity_constant",
        "controller.braking_motor_current",
        "controller*.current_convention",
        "drive.ratio",
        "drive.rolling_diameter",
        "drive.ridden_speed",
        "rider.mass",
        "rider.board_mass",
        "wheel.rolling_coefficient",
        "rider.drag_area",
    ),
    quantity=quantity,
    measures="deceleration at the speed ridden that the motor current set for braking allows, road and air helping",
    formula="a = (Σ K_t·I_brake·i/(D/2) + road load)/m",
    unit="m/s2",
    source="Newton's second law; K_t from equality of mechanical and electrical power",
    examples=(
        (
            {
                "motor*.velocity_constant": (190.0, 190.0),
                "controller.braking_motor_current": 30.0,
                "drive.ratio": 2.4,
                "drive.rolling_diameter": 90.0,
                "drive.ridden_speed": 20.0,
                "rider.mass": 87.0,
                "rider.board_mass": 10.0,
                "wheel.rolling_coefficient": 0.02,
                "rider.drag_area": 0.55,
            },
            1.9593,
        ),
    ),
)
