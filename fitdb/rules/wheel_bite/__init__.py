"""J08 Wood and wheel under full lean: wheel bite.

When a rider leans as far as the truck allows, the deck's edge comes down on the wheel and the wheel turns toward it.
Where they touch the board stops and the rider does not: the most common serious fall after a wheel or truck swap.
"""

from fitdb.model.rule import JointKind

KIND = JointKind(id="wheel_bite", joint="J08", title="Wood and wheel under full lean")
