"""J13 Axle length and all that lies on it.

Shoulder, spacers, rings, bearings, spacer, rings, nut, and one turn of thread beyond: they are added up, each with
its own doubt, and held against the axle.
"""

from fitdb.model.rule import JointKind

KIND = JointKind(id="axle_stack", joint="J13", title="Axle length and all that lies on it")
