"""J77 Steering axes under the sagging deck.

A deck that sags stands steeper at its ends and takes the steering axes with it, so the board turns in quicker under its
rider than the plates say. The trade knows no hard limit here, only a caution; the hard limits stand at the end of what
can be read.
"""

from fitdb.model.rule import JointKind

KIND = JointKind(id="steering_under_load", joint="J77", title="Steering axes under the sagging deck")
