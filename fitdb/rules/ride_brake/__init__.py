"""J75 Brake.

On these boards the motor is the brake, and it is limited twice: by the current through the motor and by the charge that
the pack may take. It can vanish without warning, so a second way to stop is asked for as well.
"""

from fitdb.model.rule import JointKind

KIND = JointKind(id="ride_brake", joint="J75", title="Brake")
