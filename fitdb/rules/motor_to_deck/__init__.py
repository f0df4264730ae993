"""J32 Motor and deck under full lean.

When the board leans, the deck comes down on the inside of the turn while the hanger stays level, and the motor is what
it meets first. A motor that touches the deck stops the steering at the worst moment.
"""

from fitdb.model.rule import JointKind

KIND = JointKind(id="motor_to_deck", joint="J32", title="Motor and deck under full lean")
