"""J20 Belt width and pulley faces.

The belt needs a little air between the flanges, and flanges enough to keep it on. A narrower belt on a wide face is
fine; a belt that rubs on its flanges is shredded from the edge.
"""

from fitdb.model.rule import JointKind

KIND = JointKind(id="belt_width", joint="J20", title="Belt width and pulley faces")
