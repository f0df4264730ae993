"""J18 Driven pulley above the ground.

The pulley is the lowest thing on the drive side. A worn wheel or a soft tyre brings it nearer to the road than the
printed diameter says.
"""

from fitdb.model.rule import JointKind

KIND = JointKind(id="pulley_ground", joint="J18", title="Driven pulley above the ground")
