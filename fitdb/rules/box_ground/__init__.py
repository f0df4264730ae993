"""J42 Box and ground

Wheels, trucks, risers and camber lift the box, its own depth and the sagging deck lower it. What is left is judged at
rest, on a bump and over the edge of a ramp.
"""

from fitdb.model.rule import JointKind

KIND = JointKind(id="box_ground", joint="J42", title="Box and ground")
