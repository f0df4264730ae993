"""The resistance of the pack beside it divides every current between the two: less resistance gives more."""

from fitdb.formulas.packs import pack_resistance
from fitdb.model.rule import SurveyLine

LINE = SurveyLine(
    target="other_pack.resistance",
    needs=("other_pack.series", "other_pack.parallel", "other_pack.cell_resistance", "other_pack.link_resistance"),
    quantity=pack_resistance,
    measures="direct-current resistance of the other pack: its cells, and the strips, leads and plugs between them",
    formula="R = S / P · r_cell + R_links",
    unit="mohm",
    source="Ohm's law for cells in series and in parallel",
    examples=(
        (
            {
                "other_pack.series": 12,
                "other_pack.parallel": 2,
                "other_pack.cell_resistance": 20.0,
                "other_pack.link_resistance": 15.0,
            },
            135.0,
        ),
    ),
)
