"""J55 Main fuse and a connector behind it.

Every connector behind the fuse has to bear what the fuse lets pass.
"""

from fitdb.model.rule import JointKind

KIND = JointKind(id="fuse_connector", joint="J55", title="Main fuse and a connector behind it")
