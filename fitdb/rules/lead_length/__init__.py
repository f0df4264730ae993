"""J48 Length of a lead that goes to the axle

The axle turns and leans, the deck bends, a riser lifts: the lead must never be what holds them back.
"""

from fitdb.model.rule import JointKind

KIND = JointKind(id="lead_length", joint="J48", title="Length of a lead that goes to the axle")
