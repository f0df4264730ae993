"""J54 Chain of the pack's current.

What the controllers may draw passes through cells, BMS, fuse and switch one after the other. Every link has a rule of
its own, so that the one that limits is told by name. Connectors and leads are links as well, asked piece by piece.
"""

from fitdb.model.rule import JointKind

KIND = JointKind(id="current_chain", joint="J54", title="Current of the controllers and the links that carry it")
