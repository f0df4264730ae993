"""J65 Pre-charge of the capacitors.

An anti-spark switch or a pre-charge lead fills the capacitors through a resistor before the contacts carry them. It has
to be made for as much capacitance, and to be given the time.
"""

from fitdb.model.rule import JointKind

KIND = JointKind(id="pre_charge", joint="J65", title="Pre-charge part and the capacitors of the controllers")
