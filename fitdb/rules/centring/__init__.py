"""J16 Pulley centred on the wheel.

Lugs drive, they do not centre. A collar in the wheel's bore or a bearing of the pulley's own has to hold it in the
middle, or the belt is tight and slack once in every turn.
"""

from fitdb.model.rule import JointKind

KIND = JointKind(id="centring", joint="J16", title="Pulley centred on the wheel")
