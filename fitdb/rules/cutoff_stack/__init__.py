"""J64 Cut-off volts, one above the other.

Going empty, power has to fade in the controller before the BMS cuts it dead: start of the fade, end of the fade, least
volts of the cells, cut of the BMS, in this order.
"""

from fitdb.model.rule import JointKind

KIND = JointKind(id="cutoff_stack", joint="J64", title="Fade of the controller and cut of the BMS")
