"""How hard all motors together push the board at their greatest current. What a controller calls motor current may be
the equivalent direct current or the peak of one phase; the second gives 13 % less pull, and unless somebody says which
it is both are counted with.
"""

from fitdb.formulas.ride import wheel_pull
from fitdb.model.rule import SurveyLine


def quantity(
    kvs: tuple[float, ...],
    current: float,
    conventions: tuple[str, ...],
    ratio: float,
    diameter: float,
    efficiency: float,
) -> float:
    return wheel_pull(kvs, current, conventions[0] if conventions else "block", ratio, diameter, efficiency)


LINE = SurveyLine(
    target="drive.pull",
    needs=(
        "motor*.velocity_constant",
        "motor.current_asked",
        "controller*.current_convention",
        "drive.ratio",
        "drive.rolling_diameter",
        "drive.efficiency",
    ),
    quantity=quantity,
    measures="pull of all motors at the ground at the greatest motor current",
    formula="F = Σ K_t·I·i·η/(D/2)",
    unit="N",
    source="statics; K_t from equality of mechanical and electrical power",
    examples=(
        (
            {
                "motor*.velocity_constant": (190.0, 190.0),
                "motor.current_asked": 40.0,
                "drive.ratio": 2.25,
                "drive.rolling_diameter": 83.0,
                "drive.efficiency": 0.92,
            },
            200.550,
        ),
        (
            {
                "motor*.velocity_constant": (190.0, 190.0),
                "motor.current_asked": 40.0,
                "controller*.current_convention": ("peak_phase",),
                "drive.ratio": 2.25,
                "drive.rolling_diameter": 83.0,
                "drive.efficiency": 0.92,
            },
            173.681,
        ),
    ),
)
