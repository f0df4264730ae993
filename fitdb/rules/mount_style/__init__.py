"""J02 Mount style and plate form.

A truck hangs under the deck (top mount, dropped), with its plate on the deck's top over a cut-out (drop-through), or in
a pocket (flush). Each way asks another thing of the plate's outline, and each puts the deck at another height.
"""

from fitdb.model.rule import JointKind

KIND = JointKind(id="mount_style", joint="J02", title="Mount style and plate form")
