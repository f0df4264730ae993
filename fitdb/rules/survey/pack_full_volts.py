"""The volts of the full pack at rest are the volts that everything on its rail has to bear, and the volts at which its
charger has to stop. They follow from the cells in series and their chemistry, not from the volts printed on the wrap.
"""

from fitdb.formulas.packs import full_volts
from fitdb.model.rule import Constant, SurveyLine

LINE = SurveyLine(
    target="pack.full_volts",
    needs=("pack.series", "pack.chemistry"),
    quantity=full_volts,
    measures="volts of the full pack: cells in series times 4.20 V, of iron-phosphate 3.65 V",
    formula="V_full = S · 4.20 V (iron-phosphate S · 3.65 V)",
    unit="V",
    source="cell data sheets and the label of every charger for such packs; common practice, no source",
    constants=(
        Constant("nickel_full", 4.20, "V", "common practice, no source"),
        Constant("phosphate_full", 3.65, "V", "common practice, no source"),
    ),
    examples=(
        ({"pack.series": 12, "pack.chemistry": "nickel"}, 50.4),
        ({"pack.series": 10, "pack.chemistry": "nickel"}, 42.0),
        ({"pack.series": 12, "pack.chemistry": "phosphate"}, 43.8),
    ),
)
