"""J04 Height of the deck, front against rear.

Wheel radius and truck put each end of the deck at a height. When they differ the deck tilts, and every degree of tilt
takes a degree from one steering axis and gives it to the other.
"""

from fitdb.model.rule import JointKind

KIND = JointKind(id="ride_height", joint="J04", title="Height of the deck, front against rear")
