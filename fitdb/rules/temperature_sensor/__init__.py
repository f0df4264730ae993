"""J62 Temperature sensor of the motor.

The controller turns ohms into degrees by the kind of sensor that it is set to. Set to the wrong kind it sees a cold
motor burn, or a cold motor as hot.
"""

from fitdb.model.rule import JointKind

KIND = JointKind(id="temperature_sensor", joint="J62", title="Temperature sensor of the motor and its setting")
