"""J70 Lights and their converter.

A converter gives so many watts. Lights that ask more go out, or pull down whatever else hangs on it.
"""

from fitdb.model.rule import JointKind

KIND = JointKind(id="light_feed", joint="J70", title="Lights and their converter")
