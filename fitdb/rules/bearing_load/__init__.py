"""J78 Load of the wheel bearings.

Eight bearings carry the board, and in a turn four of them carry nearly all of it. A bump adds to that; balls that were
pressed into their rings rumble, and later seize.
"""

from fitdb.model.rule import JointKind

KIND = JointKind(id="bearing_load", joint="J78", title="Load of the wheel bearings")
