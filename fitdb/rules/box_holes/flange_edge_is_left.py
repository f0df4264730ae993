"""Outside the hole the rim has to keep some width: it carries the screw's pull and half of the seal. A hole that was
slotted outwards tears out of the rim.
"""

from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity


def quantity(edge_distance: float, hole: float) -> float:
    return edge_distance - hole / 2.0


RULE = Rule(
    question="Is enough rim left outside the screw holes?",
    needs=("enclosure.edge_distance", "enclosure.hole_diameter"),
    quantity=quantity,
    measures="rim between the hole and its nearer edge",
    formula="e = edge distance − Ø_hole/2",
    unit="mm",
    hard=AtLeast(Bound("box_holes.flange_edge_is_left.least", 4.0, "common practice, no source")),
    severity=Severity.DAMAGE,
    remedy_hint="a strip or frame over the rim takes the screws instead",
    examples=(
        Example(
            "hole in the middle of a wide rim",
            {"enclosure.edge_distance": (8.4, 8.5, 8.6), "enclosure.hole_diameter": 4.5},
            "holds",
            2.25,
        ),
        Example(
            "5.5 mm from the edge",
            {"enclosure.edge_distance": (5.4, 5.5, 5.6), "enclosure.hole_diameter": 4.5},
            "fails",
            -0.75,
            two_numbers="5.5 is more than 4: comparing the distance with the limit says yes",
        ),
        Example(
            "exactly on the limit", {"enclosure.edge_distance": 6.25, "enclosure.hole_diameter": 4.5}, "holds", 0.0
        ),
        Example("edge distance unread", {"enclosure.hole_diameter": 4.5}, "undecided"),
    ),
)
