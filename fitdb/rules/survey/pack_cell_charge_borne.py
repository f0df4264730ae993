"""What the cells take while they are charged: the current of one cell times the cells in parallel, of all packs on the
rail together. How two unequal packs divide it between them is asked where they are joined.
"""

from fitdb.formulas.pack_flow import charge_borne
from fitdb.model.rule import SurveyLine

LINE = SurveyLine(
    target="pack.cell_charge_borne",
    needs=("pack*.parallel", "pack*.cell_charge_current"),
    quantity=charge_borne,
    measures="charging current that the cells take: cells in parallel times the current of one, over all packs",
    formula="I_charge = Σ P · I_cell",
    unit="A",
    source="Kirchhoff's law of currents",
    examples=(
        ({"pack*.parallel": (2,), "pack*.cell_charge_current": (2.5,)}, 5.0),
        ({"pack*.parallel": (3, 2), "pack*.cell_charge_current": (4.0, 4.0)}, 20.0),
    ),
)
