"""Lay a straightedge across the face of the driven pulley: it has to touch the motor pulley too. Half a millimetre of
offset is the most; beyond that the belt leans on one flange and loses its edge within 50 to 200 km.
"""

from fitdb.model.rule import Between, Bound, Example, Rule, Severity


def quantity(offset: float) -> float:
    return offset


RULE = Rule(
    question="Do both pulleys run in one plane?",
    needs=("belt.line_offset",),
    quantity=quantity,
    measures="middle plane of the motor pulley less that of the driven pulley",
    formula="e = y_drive − y_driven",
    unit="mm",
    hard=Between(
        Bound("belt_line.planes_are_in_line.least", -0.5, "common practice, no source"),
        Bound("belt_line.planes_are_in_line.most", 0.5, "common practice, no source"),
    ),
    severity=Severity.DAMAGE,
    remedy_hint="move the motor pulley on its shaft, or shim under the mount",
    examples=(
        Example("0.2 mm by the straightedge", {"belt.line_offset": (0.1, 0.2, 0.3)}, "holds", 0.3),
        Example(
            "1.5 mm too far inboard",
            {"belt.line_offset": -1.5},
            "fails",
            -1.0,
            two_numbers="a 15 mm belt and a 16.8 mm face: comparing widths leaves 1.8 mm and says yes",
        ),
        Example("exactly on the limit", {"belt.line_offset": 0.5}, "holds", 0.0),
        Example("offset unread", {}, "undecided"),
    ),
)
