"""J22 Teeth in mesh and pull of the belt.

The motor pulls, and brakes, through the few teeth that the belt holds on the small pulley. Below six teeth every
missing one takes a fifth of what the belt can carry; a belt that skips while braking is a brake that is gone.
"""

from fitdb.model.rule import JointKind

KIND = JointKind(id="belt_pull", joint="J22", title="Teeth in mesh and pull of the belt")
