"""J24 Drive pulley bore and motor shaft.

The bore has to go on the shaft with hardly any play, and enough metal has to stay between the bore, or its keyway, and
the roots of the teeth. A pulley that is bored out too far cracks at the keyway.
"""

from fitdb.model.rule import JointKind

KIND = JointKind(id="pulley_bore", joint="J24", title="Drive pulley bore and motor shaft")
