"""J56 Power connectors.

Two plugs that go together have one form, opposite genders and the same contact for plus; their leads go into their
cups. An adapter lead between them makes two such joints of one. The current that they carry is asked in the chain.
"""

from fitdb.model.rule import JointKind

KIND = JointKind(id="power_plugs", joint="J56", title="Two power connectors that go together")
