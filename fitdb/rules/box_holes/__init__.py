"""J39 Holes of the box on the inserts of the deck

Every screw has to drop through the rim into its own insert at the same time, with enough rim left around it. New
inserts keep away from the old holes.
"""

from fitdb.model.rule import JointKind

KIND = JointKind(id="box_holes", joint="J39", title="Holes of the box on the inserts of the deck")
