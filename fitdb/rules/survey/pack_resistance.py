"""The resistance of the pack says how far its volts sag, and how large the current of a dead short is: that is the
current which the fuse must be able to break.
"""

from fitdb.formulas.packs import pack_resistance
from fitdb.model.rule import SurveyLine

LINE = SurveyLine(
    target="pack.resistance",
    needs=("pack.series", "pack.parallel", "pack.cell_resistance", "pack.link_resistance"),
    quantity=pack_resistance,
    measures="direct-current resistance of the pack: its cells, and the strips, leads and plugs between them",
    formula="R = S / P · r_cell + R_links",
    unit="mohm",
    source="Ohm's law for cells in series and in parallel",
    examples=(
        (
            {
                "pack.series": 12,
                "pack.parallel": 3,
                "pack.cell_resistance": 20.0,
                "pack.link_resistance": 15.0,
            },
            95.0,
        ),
        (
            {
                "pack.series": 10,
                "pack.parallel": 2,
                "pack.cell_resistance": 25.0,
                "pack.link_resistance": 15.0,
            },
            140.0,
        ),
    ),
)
