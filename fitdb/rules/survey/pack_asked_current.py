"""What the controllers may draw from the pack, all together. The setting is made for each motor: a controller of two
motors set to 30 A each asks for 60 A, exactly as two controllers of one motor do.
"""

from fitdb.formulas.packs import asked_current
from fitdb.model.rule import SurveyLine

LINE = SurveyLine(
    target="pack.asked_current",
    needs=("controller*.pack_current", "controller*.channels"),
    quantity=asked_current,
    measures="pack current that all controllers together may draw: setting for each motor, times the motors it drives",
    formula="I_ask = Σ I_setting · channels",
    unit="A",
    source="Kirchhoff's law of currents",
    examples=(
        ({"controller*.pack_current": (30.0,), "controller*.channels": (2,)}, 60.0),
        ({"controller*.pack_current": (30.0, 30.0), "controller*.channels": (1, 1)}, 60.0),
        ({"controller*.pack_current": (30.0, 20.0), "controller*.channels": (2, 1)}, 80.0),
    ),
)
