"""J60 Electrical speed of the motor and limit of the controller.

A controller can follow the field of a motor up to so many turns a minute. Beyond it loses step, and drive and brake
are gone at the highest speed there is.
"""

from fitdb.model.rule import JointKind

KIND = JointKind(id="electrical_speed", joint="J60", title="Electrical speed of the motor and limit of the controller")
