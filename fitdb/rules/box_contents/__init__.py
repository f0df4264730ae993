"""J44 Contents and cavity

Everything that goes inside has to go in together, packed softly, with room for leads to bend and without any load on
cells.
"""

from fitdb.model.rule import JointKind

KIND = JointKind(id="box_contents", joint="J44", title="Contents and cavity")
