"""J34 Motor and box, along the board.

An inboard motor stands between the axle and the box under the deck. In a turn the hanger swings it toward the box, by
more than it looks when the board stands still.
"""

from fitdb.model.rule import JointKind

KIND = JointKind(id="motor_to_box", joint="J34", title="Motor and box, along the board")
