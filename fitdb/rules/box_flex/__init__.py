"""J41 Long box under a bending deck

A deck bends under its rider and twice as much on a bump. A box that does not bend with it pulls out its inserts or
cracks what is inside.
"""

from fitdb.model.rule import JointKind

KIND = JointKind(id="box_flex", joint="J41", title="Long box under a bending deck")
