"""J67 Supply of the receiver.

The receiver lives on a few volts that one controller, or a regulator, gives it. When they break down, the link to the
hand is gone: the board coasts, or runs away.
"""

from fitdb.model.rule import JointKind

KIND = JointKind(id="receiver_supply", joint="J67", title="Supply of the receiver")
