"""J29 The motor mount's clamp on the profile of the hanger.

The mount holds the motor's whole torque by squeezing the hanger. The clamp has to be of the hanger's form, has to go
on, and has to close far enough to grip, at the thin end of a cast barrel too. A mount that turns drops the motor on
the ground and locks the wheel.
"""

from fitdb.model.rule import JointKind

KIND = JointKind(id="clamp_profile", joint="J29", title="Motor mount's clamp on the hanger's profile")
