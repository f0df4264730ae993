"""J72 Packs in parallel.

Two packs on one rail push current into each other until their volts agree, and share every load by their resistances,
not by their size. Each pack is asked in its turn, with the other beside it.
"""

from fitdb.model.rule import JointKind

KIND = JointKind(id="packs_in_parallel", joint="J72", title="Pack and the other pack beside it")
