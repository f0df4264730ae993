"""J14 Axle nut on its thread.

M8×1.25 and 5/16-24 look alike and start on each other: the wrong nut runs on three turns, then strips the thread.
And a nut that does not hold itself needs its nylon ring wholly on the thread.
"""

from fitdb.model.rule import JointKind

KIND = JointKind(id="axle_nut", joint="J14", title="Axle nut on its thread")
