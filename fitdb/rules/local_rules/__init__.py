"""J80 Local rules.

Speed, power, place, age and lights are ruled differently from place to place. Nothing here knows the rules of a place:
this joint only reminds its reader to ask.
"""

from fitdb.model.rule import JointKind

KIND = JointKind(id="local_rules", joint="J80", title="Local rules")
