"""J37 Hub motor, its sleeve and the truck.

A hub motor is the wheel: a urethane sleeve is pushed over its can and held by ribs, and its axle and leads go through
the hanger. Wheels with bearings do not go on, and ordinary hangers do not take its axle.
"""

from fitdb.model.rule import JointKind

KIND = JointKind(id="hub_motor", joint="J37", title="Hub motor, its sleeve and the truck")
