"""J06 Track of the wheels and width of the deck.

Wheels that stand far inside the deck's edge let the board tip; wheels far outside get trodden on. And a wheel must not
reach so far in that it rubs on the hanger.
"""

from fitdb.model.rule import JointKind

KIND = JointKind(id="track_width", joint="J06", title="Track of the wheels and width of the deck")
