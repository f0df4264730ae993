"""J53 Charge plug and charge port.

A plug that mates is not a plug that matches: form, pin, polarity, current and fuse are asked one by one.
"""

from fitdb.model.rule import JointKind

KIND = JointKind(id="charge_port", joint="J53", title="Charge plug and charge port")
