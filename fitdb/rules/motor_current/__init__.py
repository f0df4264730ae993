"""J58 Motor current as it is set.

A motor takes whatever current the controller pushes through it. Each link bears so much: the motor itself, the power
stage of the controller, the bullets (J59), the belt (J22) and the lock on the shaft (J25). Each is a rule of its own,
so that the weakest has a name.
"""

from fitdb.model.rule import JointKind

KIND = JointKind(id="motor_current", joint="J58", title="Motor current as set, motor and controller")
