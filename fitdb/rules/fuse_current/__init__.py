"""J55 Main fuse and the current of the controllers.

The fuse has to let the ride pass, a quarter above what the controllers may draw, or it ages and blows on the road.
"""

from fitdb.model.rule import JointKind

KIND = JointKind(id="fuse_current", joint="J55", title="Main fuse and the current of the controllers")
