"""J67 Lights and the supply of the receiver.

The few volts that a controller gives are for the receiver alone. Lights have the pack or a converter of their own.
"""

from fitdb.model.rule import JointKind

KIND = JointKind(id="light_source", joint="J67", title="Lights and the supply of the receiver")
