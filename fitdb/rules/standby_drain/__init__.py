"""J70 What the board draws while it stands.

Meters, converters and switches draw a little all winter. A milliampere takes an ampere hour in six weeks, and a pack
that was run down by it is dead.
"""

from fitdb.model.rule import JointKind

KIND = JointKind(id="standby_drain", joint="J70", title="What the board draws while it stands")
