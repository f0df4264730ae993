"""J54 Connectors in the chain of the pack's current.

Every connector between pack and controllers is a link of its own.
"""

from fitdb.model.rule import JointKind

KIND = JointKind(id="current_connector", joint="J54", title="Current of the controllers and a connector")
