"""J23 Belt line of the two pulleys.

Both pulleys have to run in one plane, with their axes parallel. A belt that runs askew climbs a flange and wears
through at its edge within 50 to 200 km.
"""

from fitdb.model.rule import JointKind

KIND = JointKind(id="belt_line", joint="J23", title="Belt line of the two pulleys")
