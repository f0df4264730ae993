"""J35 Gear drive on its hanger.

A gear drive is made for one hanger: its housing clamps the profile, its last gear sits on the axle, its adapter enters
the wheel's core, and its housing hangs below the axle. Clamp and adapter are asked by the rules of J29 and J15; here
stand the axle and the ground. What does not fit is cured by taking the truck over as a whole.
"""

from fitdb.model.rule import JointKind

KIND = JointKind(id="gear_drive", joint="J35", title="Gear drive on its hanger")
