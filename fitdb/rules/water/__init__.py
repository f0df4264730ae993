"""J79 Water.

Box, motors and charge port are as good against water as the weakest of them. It matters only where the route is ridden
wet; what nobody looked at stays open.
"""

from fitdb.model.rule import JointKind

KIND = JointKind(id="water", joint="J79", title="Water")
