"""J74 Pull and hill.

A motor can push hard for a moment, less hard for a minute, and less than half as hard all day. Three hills are asked:
the one that is wished for, the one on the route, and the heat on it.
"""

from fitdb.model.rule import JointKind

KIND = JointKind(id="ride_pull", joint="J74", title="Pull and hill")
