"""J19 Belt teeth and pulley teeth.

Pitch and tooth form have to be the same on the motor's pulley, the belt and the driven pulley. Two pulleys can look
alike and measure almost the same across, and yet not share a belt; there is no adapter, one side is replaced.
"""

from fitdb.model.rule import JointKind

KIND = JointKind(id="belt_teeth", joint="J19", title="Belt teeth and pulley teeth")
