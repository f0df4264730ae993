"""J31 Two motors on one hanger.

Two motors that face each other share the width of the hanger with their mounts. Data sheets give the can alone; the
stubs, bosses and leads past it are what touches in the end.
"""

from fitdb.model.rule import JointKind

KIND = JointKind(id="motor_to_motor", joint="J31", title="Two motors on one hanger")
