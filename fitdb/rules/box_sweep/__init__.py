"""J43 Box beside plate and steered wheels

The box ends before the plate of the truck, and before or between the wheels as they swing at full steer.
"""

from fitdb.model.rule import JointKind

KIND = JointKind(id="box_sweep", joint="J43", title="Box beside plate and steered wheels")
