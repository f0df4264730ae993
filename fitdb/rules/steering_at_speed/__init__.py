"""J77 Two kingpins at speed.

Trucks with two kingpins turn in quickly and wander at speed, the more so under a soft deck. The trade knows no hard
limit here, only a caution above 30 km/h; the hard limit stands beyond any speed that can be read.
"""

from fitdb.model.rule import JointKind

KIND = JointKind(id="steering_at_speed", joint="J77", title="Two kingpins at speed")
