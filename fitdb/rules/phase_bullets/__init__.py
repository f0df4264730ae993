"""J59 Bullets of the phase leads.

Three round plugs join motor and controller. They have to go into each other and carry the motor current; in which
order they are joined is free, and swapping two turns the motor the other way round.
"""

from fitdb.model.rule import JointKind

KIND = JointKind(id="phase_bullets", joint="J59", title="Bullets of the phase leads")
