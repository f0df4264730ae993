"""J50 Volts of the rail and a light.

Lights are the only parts that a step-down converter may stand before. A light behind a converter sees the volts of the
converter, one without it sees those of the pack.
"""

from fitdb.model.rule import JointKind

KIND = JointKind(id="light_volts", joint="J50", title="Volts of the rail and a light")
