"""J51 BMS and cells.

The board watches every cell by a wire of its own and knows one chemistry. No adapter exists for either.
"""

from fitdb.model.rule import JointKind

KIND = JointKind(id="bms_cells", joint="J51", title="Battery management board and cells")
