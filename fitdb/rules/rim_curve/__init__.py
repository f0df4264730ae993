"""J40 Curve of the rim against the deck

A deck curves along and across. What the rim does not follow, the gasket has to fill, and it fills less than half of its
thickness.
"""

from fitdb.model.rule import JointKind

KIND = JointKind(id="rim_curve", joint="J40", title="Curve of the rim against the deck")
