"""J71 Heat of the controller in its box.

A controller turns three to five per cent of the power into heat. A closed plastic box keeps it in; a plate or a pad to
a metal wall lets it out.
"""

from fitdb.model.rule import JointKind

KIND = JointKind(id="controller_heat", joint="J71", title="Heat of the controller in its box")
