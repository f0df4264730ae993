"""J13 Bore of spacers and rings on the axle.

Axles come with 8, 10 and 12 mm, and the spacers and rings for them look alike in the bag. One for a thinner axle does
not go on; one for a thicker axle goes on, hangs to one side and rubs where it should not.
"""

from fitdb.model.rule import JointKind

KIND = JointKind(id="ring_on_axle", joint="J13", title="Bore of spacers and rings on the axle")
