"""J33 Motor and ground.

The motor hangs beside the wheel, and on small wheels it is the lowest metal on the board. Worn wheels, a wedge under
the truck or a bash guard bring it nearer to the ground.
"""

from fitdb.model.rule import JointKind

KIND = JointKind(id="motor_to_ground", joint="J33", title="Motor and ground")
