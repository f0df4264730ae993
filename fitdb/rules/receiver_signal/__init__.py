"""J66 Signal of the receiver and input of the controller.

Form, level, polarity and pins have to agree, and both have to let go of the throttle when the link is lost. What
happens on loss of the link is tried with the wheels up, never taken on trust.
"""

from fitdb.model.rule import JointKind

KIND = JointKind(id="receiver_signal", joint="J66", title="Signal of the receiver and input of the controller")
