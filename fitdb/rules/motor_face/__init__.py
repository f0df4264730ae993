"""J27 Motor face and slots of the mount.

The threaded holes in the motor's face have to meet the slots of the mount: on the same circle, with enough screws, and
wide enough for the screw. Measure a circle across the middle: four holes on a 44 mm circle stand 31.1 mm apart.
"""

from fitdb.model.rule import JointKind

KIND = JointKind(id="motor_face", joint="J27", title="Motor face and slots of the mount")
