"""J50 Volts of the pack and the accessories on its rail.

Meters and step-down converters hang on the pack itself and bear its full volts. They carry nothing that brakes, so that
one which goes out early is a nuisance and no more.
"""

from fitdb.model.rule import JointKind

KIND = JointKind(id="accessory_volts", joint="J50", title="Volts of the pack and an accessory on its rail")
