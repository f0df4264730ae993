"""J61 Plug of the position sensors.

The shells of these plugs agree far more often than the order of their pins. Supply on a ground or signal pin kills
three sensors, and at times the controller's supply with them. An order that nobody metered stays open, whatever the
shell.
"""

from fitdb.model.rule import JointKind

KIND = JointKind(id="sensor_plug", joint="J61", title="Plug of the position sensors")
