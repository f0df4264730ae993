"""J21 Belt length and the slot of the motor mount.

The motor slides in a slot, and the belt has to be slipped on at one end of it and pulled tight before the other.
Another belt length is the cheapest of all cures; lengths are sold in steps, so the slot has to span one.
"""

from fitdb.model.rule import JointKind

KIND = JointKind(id="belt_length", joint="J21", title="Belt length and the slot of the motor mount")
