"""J25 Key, flat or set screw on the motor shaft.

Something has to carry the motor's torque from shaft to pulley: a key, a flat, a set screw, or a bonded joint. When it
gives way the pulley spins, gets hot, and the brake is gone at once; or it jams and the wheel locks.
"""

from fitdb.model.rule import JointKind

KIND = JointKind(id="torque_lock", joint="J25", title="Key, flat or set screw on the motor shaft")
