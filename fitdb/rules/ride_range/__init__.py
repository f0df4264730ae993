"""J76 Range.

What the pack holds, divided by what a kilometre costs. Wind, stops, hills and cold make it good to a third: a wish that
lies inside that third stays open.
"""

from fitdb.model.rule import JointKind

KIND = JointKind(id="ride_range", joint="J76", title="Range")
