"""The volts at which the ride ends are the least that everything on the rail still has to work at: a controller that
switches itself off below its least volts takes drive and brake away together.
"""

from fitdb.formulas.packs import full_volts
from fitdb.model.rule import Constant, SurveyLine


def quantity(series: float, chemistry: str, nickel_end: float, phosphate_end: float) -> float:
    return full_volts(series, chemistry, nickel_end, phosphate_end)


LINE = SurveyLine(
    target="pack.empty_volts",
    needs=("pack.series", "pack.chemistry"),
    quantity=quantity,
    measures="volts of the pack where power ends: cells in series times 3.0 V, of iron-phosphate 2.7 V",
    formula="V_end = S · 3.0 V (iron-phosphate S · 2.7 V)",
    unit="V",
    source="common practice, no source",
    constants=(
        Constant("nickel_end", 3.0, "V", "common practice, no source"),
        Constant("phosphate_end", 2.7, "V", "common practice, no source"),
    ),
    examples=(
        ({"pack.series": 12, "pack.chemistry": "nickel"}, 36.0),
        ({"pack.series": 16, "pack.chemistry": "phosphate"}, 43.2),
    ),
)
