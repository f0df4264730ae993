"""J30 Where the clamp sits on the hanger.

Next to the shoulder a hanger is straight for 18 to 40 mm only. The clamp has to find its place there, at the distance
that the belt line asks for, and leave room for the pulley; a shell between has to be as long as the clamp.
"""

from fitdb.model.rule import JointKind

KIND = JointKind(id="clamp_place", joint="J30", title="Place of the clamp on the hanger")
