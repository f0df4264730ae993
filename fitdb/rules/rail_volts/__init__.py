"""J50 Volts of the pack and the parts on its rail.

Everything that is joined to the pack bears the volts of the full pack, and a little more while braking. Every part is
asked by itself: controllers, switch and BMS. The fuse has a rule of its own, accessories as well.
"""

from fitdb.model.rule import JointKind

KIND = JointKind(id="rail_volts", joint="J50", title="Volts of the pack and a part on its rail")
