"""J01 Baseplate holes and deck holes.

Four straight bolts have to drop through plate and deck at once. Two hole grids are common, 63.5 × 41.3 and
54.0 × 41.3 mm, and a plate with six holes takes both; everything else needs an adapter plate or new holes.
"""

from fitdb.model.rule import JointKind

KIND = JointKind(id="deck_holes", joint="J01", title="Baseplate holes and deck holes")
