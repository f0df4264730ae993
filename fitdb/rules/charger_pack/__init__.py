"""J52 Charger and pack.

A charger is made for one number of cells in series and one chemistry; its plug says nothing about either. Volts above
the full pack set it on fire, volts below never fill it. The charging current is held against every part that carries
it.
"""

from fitdb.model.rule import JointKind

KIND = JointKind(id="charger_pack", joint="J52", title="Charger and pack")
