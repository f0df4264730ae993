"""J38 Cover over belt and pulleys.

A cover keeps fingers, laces and stones out of the belt. It needs air round the belt and beside the wheel, or it rubs
and is taken off, and then nothing covers the belt at all.
"""

from fitdb.model.rule import JointKind

KIND = JointKind(id="belt_cover", joint="J38", title="Cover over belt and pulleys")
