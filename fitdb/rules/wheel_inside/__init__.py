"""J09 Inner face of the wheel, motor mount and motor.

Behind the driven wheel stand mount, clamp screws and motor. A core with an inward offset, a wider wheel or a thinner
spacer moves the wheel toward them.
"""

from fitdb.model.rule import JointKind

KIND = JointKind(id="wheel_inside", joint="J09", title="Inner face of the wheel, motor mount and motor")
