"""J49 Screws of the box and their inserts

A screw has to hold on enough thread and end inside its insert, through gasket, frame and rim.
"""

from fitdb.model.rule import JointKind

KIND = JointKind(id="insert_screws", joint="J49", title="Screws of the box and their inserts")
