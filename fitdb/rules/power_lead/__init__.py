"""J57 Lead that carries the current of the pack.

A lead is a link of the current chain: its copper and the air around it say what it bears. Length takes volts.
"""

from fitdb.model.rule import JointKind

KIND = JointKind(id="power_lead", joint="J57", title="Lead and the current of the pack")
