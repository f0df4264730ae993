"""J12 Spacer between the bearings.

Tightening the nut clamps the inner rings. The spacer between them must be as long as the gap between the seats, or
a little longer; where it is shorter the nut pushes the rings sideways against their balls.
"""

from fitdb.model.rule import JointKind

KIND = JointKind(id="bearing_spacer", joint="J12", title="Spacer between the bearings")
