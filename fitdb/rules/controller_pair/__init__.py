"""J68 Two controllers on one board.

Two controllers that share a throttle by a link have to be of one kind and one generation, with one in the lead. When
they are not, one side brakes and the other does not.
"""

from fitdb.model.rule import JointKind

KIND = JointKind(id="controller_pair", joint="J68", title="Two controllers on one board")
