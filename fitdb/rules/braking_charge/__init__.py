"""J63 Braking charge, cells and BMS.

The electric brake pushes current back into the pack. Cells take far less current than they give, and a BMS that refuses
it takes the brake away. The setting stands in the controller, once for each motor.
"""

from fitdb.model.rule import JointKind

KIND = JointKind(id="braking_charge", joint="J63", title="Braking charge, cells and BMS")
