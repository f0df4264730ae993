"""J51 BMS and cells.

The BMS, the small board that watches the cells, has a wire to every cell and knows one chemistry. No
adapter exists for either.
"""

from fitdb.model.rule import JointKind

KIND = JointKind(id="bms_cells", joint="J51", title="Battery management board and cells")
