"""J47 Lead and the bend beside its opening

Copper strands break where they are bent tightly, sooner where the bend moves.
"""

from fitdb.model.rule import JointKind

KIND = JointKind(id="lead_bend", joint="J47", title="Lead and the bend beside its opening")
