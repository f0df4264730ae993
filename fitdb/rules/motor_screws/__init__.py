"""J28 Reach of the motor screws.

A screw has to hold in the motor's face and must not reach the winding behind it. Both ends are tight on thin faces, so
the depth of the thread has to be measured, always.
"""

from fitdb.model.rule import JointKind

KIND = JointKind(id="motor_screws", joint="J28", title="Reach of the motor screws")
