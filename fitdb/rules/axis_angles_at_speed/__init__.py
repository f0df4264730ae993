"""J05 Steering axes of a board that is ridden fast.

What is lively at walking pace throws its rider at 40 km/h. Beyond 35 km/h the trade keeps the front axis at 50° or less
and the rear axis no steeper than the front one; ridden slower a board may steer more, and these rules soon leave it to
those that hold at every speed.
"""

from fitdb.model.rule import JointKind

KIND = JointKind(id="axis_angles_at_speed", joint="J05", title="Steering axes of a board that is ridden fast")
