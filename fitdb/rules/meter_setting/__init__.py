"""J70 Meter and number of cells.

A charge gauge turns volts into per cent by the number of cells that it is set to. Its volts are asked with those of
the rail (J50).
"""

from fitdb.model.rule import JointKind

KIND = JointKind(id="meter_setting", joint="J70", title="Meter and number of cells")
