"""What a ride can take out of all packs on the board. The controller fades before the cells are empty, so about 85 % of
what is printed can be used; a cold or old pack gives 75 %.
"""

from fitdb.formulas.ride import usable_energy_wh
from fitdb.model.rule import Constant, SurveyLine

LINE = SurveyLine(
    target="pack.usable_energy",
    needs=("pack*.capacity_ah", "pack*.series", "pack*.chemistry"),
    quantity=usable_energy_wh,
    measures="energy of all packs between full and fading",
    formula="E = Σ Ah · S · 3.6 V (iron-phosphate 3.2 V) · 0.85",
    unit="Wh",
    source="energy is charge times volts; the usable share is common practice",
    constants=(
        Constant("nickel_mean", 3.6, "V", "common practice, no source"),
        Constant("phosphate_mean", 3.2, "V", "common practice, no source"),
        Constant("usable", 0.85, "1", "common practice, no source"),
    ),
    examples=(
        ({"pack*.capacity_ah": (12.0,), "pack*.series": (12,), "pack*.chemistry": ("nickel",)}, 440.64),
        (
            {"pack*.capacity_ah": (8.0, 4.0), "pack*.series": (10, 10), "pack*.chemistry": ("phosphate", "phosphate")},
            326.4,
        ),
    ),
)
