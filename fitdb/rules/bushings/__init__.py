"""J07 Bushings, rider and kingpin.

Two rubber rings on the kingpin carry the rider's lean. Too soft for the rider the board wobbles, too hard it does not
turn, too tall the kingpin nut does not hold.
"""

from fitdb.model.rule import JointKind

KIND = JointKind(id="bushings", joint="J07", title="Bushings, rider and kingpin")
