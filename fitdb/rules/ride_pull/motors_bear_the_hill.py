"""A long hill is a matter of heat. What a motor bears without end is less than half of what it gives for a moment, and
data sheets claim a fifth to a half too much.
"""

from fitdb.formulas.ride import road_load
from fitdb.model.rule import AtLeast, Bound, Constant, Example, Rule, Severity


def quantity(
    pull: float,
    current: float,
    continuous: float,
    rider: float,
    board: float,
    rolling: float,
    drag_area: float,
    slope: float,
    honest_share: float,
    hill_speed: float,
) -> float:
    without_end = pull * honest_share * continuous / current
    return without_end - road_load(rider + board, hill_speed, rolling, drag_area, slope)


RULE = Rule(
    question="Do the motors bear the hill without overheating?",
    needs=(
        "drive.pull",
        "motor.current_asked",
        "motor.continuous_current",
        "rider.mass",
        "rider.board_mass",
        "wheel.rolling_coefficient",
        "rider.drag_area",
        "route.slope",
    ),
    quantity=quantity,
    measures="pull that the motors bear without end less what the steepest hill of the route takes at 15 km/h",
    formula="ΔF = F·0.7·I_cont/I − m·g·(c·cos θ + sin θ) − ½·ρ·C_dA·v²",
    unit="N",
    hard=AtLeast(Bound("ride_pull.motors_bear_the_hill.least", 0.0, "common practice, no source")),
    severity=Severity.NUISANCE,
    constants=(
        Constant("honest_share", 0.7, "1", "common practice, no source"),
        Constant("hill_speed", 15.0, "km/h", "common practice, no source"),
    ),
    remedy_hint="a larger ratio, larger motors, a pause at the top: hands on the cans tell more than the sheet",
    examples=(
        Example(
            "two 55 A motors on 6 %",
            {
                "drive.pull": 247.0,
                "motor.current_asked": 50.0,
                "motor.continuous_current": 55.0,
                "rider.mass": 87.0,
                "rider.board_mass": 10.0,
                "wheel.rolling_coefficient": 0.02,
                "rider.drag_area": 0.55,
                "route.slope": 6.0,
            },
            "holds",
            108.50,
        ),
        Example(
            "two 40 A motors on 15 %",
            {
                "drive.pull": 247.0,
                "motor.current_asked": 50.0,
                "motor.continuous_current": 40.0,
                "rider.mass": 87.0,
                "rider.board_mass": 10.0,
                "wheel.rolling_coefficient": 0.02,
                "rider.drag_area": 0.55,
                "route.slope": 15.0,
            },
            "fails",
            -27.33,
            two_numbers="they pull 247 N and the hill takes 166: comparing two numbers says yes",
        ),
        Example(
            "flat and still, nothing to pull: exactly on the limit",
            {
                "drive.pull": 0.0,
                "motor.current_asked": 50.0,
                "motor.continuous_current": 40.0,
                "rider.mass": 90.0,
                "rider.board_mass": 10.0,
                "wheel.rolling_coefficient": 0.0,
                "rider.drag_area": 0.0,
                "route.slope": 0.0,
            },
            "holds",
            0.0,
        ),
        Example(
            "continuous current unread",
            {
                "drive.pull": 247.0,
                "motor.current_asked": 50.0,
                "rider.mass": 87.0,
                "rider.board_mass": 10.0,
                "wheel.rolling_coefficient": 0.02,
                "rider.drag_area": 0.55,
                "route.slope": 15.0,
            },
            "undecided",
        ),
    ),
)
