"""J46 Plugs and leads in an opening

Plugs pass one after the other, at most turned; leads then lie in the opening side by side, all at once.
"""

from fitdb.model.rule import JointKind

KIND = JointKind(id="lead_slot", joint="J46", title="Plugs and leads in an opening")
