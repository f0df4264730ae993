"""J05 Steering axes, front against rear.

A truck steers more the steeper its axis stands. A board wants its front to steer more than its rear; the other way
round it follows its tail, and weaves at speed.
"""

from fitdb.model.rule import JointKind

KIND = JointKind(id="axis_angles", joint="J05", title="Steering axes, front against rear")
