"""J55 Main fuse and a lead behind it.

A fuse guards the lead, not the controller: it has to blow before the thinnest lead behind it burns.
"""

from fitdb.model.rule import JointKind

KIND = JointKind(id="fuse_lead", joint="J55", title="Main fuse and a lead behind it")
