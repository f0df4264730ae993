"""J65 Main switch.

Everything that the controllers draw goes through the main switch, all their capacitors are charged through it, and if
it opens while riding there is no brake. Its volts are asked with all else on the rail (J50).
"""

from fitdb.model.rule import JointKind

KIND = JointKind(id="main_switch", joint="J65", title="Main switch, current and capacitors")
