"""J03 Deck bolts and the stack they hold.

A bolt passes deck, grip under its head, risers and plate, and must still fill its nut with a turn to spare. Every riser
makes the stack longer, and a wedge makes it longer at one pair of bolts than at the other.
"""

from fitdb.model.rule import JointKind

KIND = JointKind(id="deck_bolts", joint="J03", title="Deck bolts and the stack they hold")
