"""J55 Main fuse and pack.

The fuse has to break a short of this pack at its volts, and stand close to it. That it lets the ride pass, and blows
before a lead or connector burns, is asked for each of them.
"""

from fitdb.model.rule import JointKind

KIND = JointKind(id="main_fuse", joint="J55", title="Main fuse and pack")
