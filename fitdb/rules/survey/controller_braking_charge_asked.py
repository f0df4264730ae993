"""What the brake may push back into the pack, all controllers together. The limit is set for each motor: one controller
of two motors set to 6 A each charges with 12 A, exactly as two controllers of one motor do.
"""

from fitdb.formulas.pack_flow import braking_charge_asked
from fitdb.model.rule import SurveyLine

LINE = SurveyLine(
    target="controller.braking_charge_asked",
    needs=("controller*.braking_charge_limit", "controller*.channels"),
    quantity=braking_charge_asked,
    measures="charging current while braking: limit for each motor, times the motors, over all controllers",
    formula="I_brake = Σ I_limit · channels",
    unit="A",
    source="Kirchhoff's law of currents",
    examples=(
        ({"controller*.braking_charge_limit": (8.0,), "controller*.channels": (1,)}, 8.0),
        ({"controller*.braking_charge_limit": (6.0,), "controller*.channels": (2,)}, 12.0),
        ({"controller*.braking_charge_limit": (6.0, 6.0), "controller*.channels": (1, 1)}, 12.0),
    ),
)
