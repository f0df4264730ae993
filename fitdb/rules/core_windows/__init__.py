"""J15 Pulley lugs in the wheel's core windows.

The driven pulley turns the wheel through lugs that sit in the windows of the wheel's core, or through bolts. When
they do not index, do not reach or shear off, the wheel turns freely and the brake is gone.
"""

from fitdb.model.rule import JointKind

KIND = JointKind(id="core_windows", joint="J15", title="Pulley lugs in the wheel's core windows")
