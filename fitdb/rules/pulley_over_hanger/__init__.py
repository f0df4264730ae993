"""J17 Pulley over the hanger's end.

The driven pulley reaches back over the end of the hanger and toward the motor mount. Both need air, the wobble of a
loaded wheel included.
"""

from fitdb.model.rule import JointKind

KIND = JointKind(id="pulley_over_hanger", joint="J17", title="Pulley over the hanger's end")
