"""J69 Radio and what conducts round it.

Metal and carbon shut a radio in. An antenna with conducting walls on four sides or more loses the hand that holds the
remote, first with the body in between.
"""

from fitdb.model.rule import JointKind

KIND = JointKind(id="radio_shade", joint="J69", title="Antenna and conducting walls")
