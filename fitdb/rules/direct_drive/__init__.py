"""J36 Direct drive on its hanger.

A direct drive sits round the hanger and turns the wheel without gears: its stator is fixed to the profile, its can is
as large as the wheel allows, its adapter enters the core. Fixing and adapter are asked by the rules of J29 and J15;
here stand the axle, the ground and the width of the wheel.
"""

from fitdb.model.rule import JointKind

KIND = JointKind(id="direct_drive", joint="J36", title="Direct drive on its hanger")
