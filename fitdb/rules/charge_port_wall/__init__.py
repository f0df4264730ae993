"""J53 Charge port in its wall.

The port is held by a nut behind the wall; the wall takes its thickness from the thread.
"""

from fitdb.model.rule import JointKind

KIND = JointKind(id="charge_port_wall", joint="J53", title="Charge port and the wall of the box")
