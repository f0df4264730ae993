"""J10 Bearing bore on the axle.

A bearing has to slide on by hand and must not rattle. An 8 mm bearing on a 5/16 in axle (7.94 mm) is normal; on a
10 mm axle the bearing is changed, never drilled; a 10 mm bearing on an 8 mm axle wants a sleeve.
"""

from fitdb.model.rule import JointKind

KIND = JointKind(id="bearing_on_axle", joint="J10", title="Bearing bore on the axle")
