"""A hill is not climbed in the second of greatest current. For about a minute motors and controller hold some 70 % of
it; on a hill steeper than that pull allows, the rider walks.
"""

from fitdb.formulas.ride import grade_percent
from fitdb.model.rule import AtLeast, Bound, Constant, Example, Rule, Severity


def quantity(pull: float, rider: float, board: float, rolling: float, slope: float, for_a_minute: float) -> float:
    return grade_percent(pull * for_a_minute, rider + board, rolling) - slope


RULE = Rule(
    question="Does the board climb the steepest hill of the route?",
    needs=("drive.pull", "rider.mass", "rider.board_mass", "wheel.rolling_coefficient", "route.slope"),
    quantity=quantity,
    measures="slope that is held for a minute less the steepest slope of the route",
    formula="Δs = tan(asin(0.7·F/(m·g) − c)) − s_route",
    unit="percent",
    hard=AtLeast(Bound("ride_pull.hill_on_the_route_is_climbed.least", 0.0, "common practice, no source")),
    severity=Severity.NUISANCE,
    constants=(Constant("for_a_minute", 0.7, "1", "common practice, no source"),),
    remedy_hint="a larger ratio, more motor current, or another way home",
    examples=(
        Example(
            "247 N and 97 kg on 12 %",
            {
                "drive.pull": 247.0,
                "rider.mass": 87.0,
                "rider.board_mass": 10.0,
                "wheel.rolling_coefficient": 0.02,
                "route.slope": (10.0, 12.0, 14.0),
            },
            "holds",
            4.39,
        ),
        Example(
            "the same on 20 %",
            {
                "drive.pull": 247.0,
                "rider.mass": 87.0,
                "rider.board_mass": 10.0,
                "wheel.rolling_coefficient": 0.02,
                "route.slope": (18.0, 20.0, 22.0),
            },
            "fails",
            -3.61,
            two_numbers="it starts on 24 %: comparing that with the 20 % of the route says yes",
        ),
        Example(
            "no slope, and a pull that just rolls: exactly on the limit",
            {
                "drive.pull": 0.0,
                "rider.mass": 90.0,
                "rider.board_mass": 10.0,
                "wheel.rolling_coefficient": 0.0,
                "route.slope": 0.0,
            },
            "holds",
            0.0,
        ),
        Example(
            "mass of the rider unread",
            {
                "drive.pull": 247.0,
                "rider.board_mass": 10.0,
                "wheel.rolling_coefficient": 0.02,
                "route.slope": 12.0,
            },
            "undecided",
        ),
    ),
)
