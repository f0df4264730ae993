"""J14b Play of the wheel along the axle.

An assembly check: tighten until the wheel drags, then turn the nut back by an eighth to a quarter of a turn. What
is felt then should be a tenth to three tenths of a millimetre.
"""

from fitdb.model.rule import JointKind

KIND = JointKind(id="end_play", joint="J14b", title="Play of the wheel along the axle")
