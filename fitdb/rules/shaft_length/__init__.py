"""J26 Drive pulley and length of the motor shaft.

The shaft passes through the mount's plate, and enough of it has to stand out to hold the pulley where the belt runs. A
pulley that hangs on the last millimetres of a shaft walks off.
"""

from fitdb.model.rule import JointKind

KIND = JointKind(id="shaft_length", joint="J26", title="Drive pulley and length of the motor shaft")
