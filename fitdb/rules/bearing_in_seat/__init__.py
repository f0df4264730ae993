"""J11 Bearing in its seat.

The outer ring is pressed in by hand. Loose, it walks out of the core; tight, its balls are squeezed. A caliper is
coarser than this fit, so a reading with one leaves it open: feel decides at assembly.
"""

from fitdb.model.rule import JointKind

KIND = JointKind(id="bearing_in_seat", joint="J11", title="Bearing in its seat")
