"""J45 Seal between box and deck

A gasket seals where it is pressed by a third to a half, all round, by screws that stand close together.
"""

from fitdb.model.rule import JointKind

KIND = JointKind(id="box_seal", joint="J45", title="Seal between box and deck")
