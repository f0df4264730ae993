"""J73 Ratio and speed against the wish and a ceiling.

Speed follows from volts, motor, ratio and wheel, and so does the pull: what one gains the other loses. The wish is what
the rider asks for; a ceiling is what skill, brake or local rules leave of it.
"""

from fitdb.model.rule import JointKind

KIND = JointKind(id="ride_speed", joint="J73", title="Ratio and speed against the wish and a ceiling")
