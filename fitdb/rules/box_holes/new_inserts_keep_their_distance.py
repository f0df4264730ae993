"""A new insert beside an old hole has little wood to hold on to on that side, and a filled hole is no wood. The pull
of the box breaks the bridge between the two.
"""

from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity


def quantity(distance: float, insert_diameter: float) -> float:
    return distance / insert_diameter


RULE = Rule(
    question="Do new inserts stay far enough from the old holes?",
    needs=("new_insert.distance_from_old", "new_insert.insert_outer_diameter"),
    quantity=quantity,
    measures="distance of the middles of new and old hole, in insert diameters",
    formula="n = distance / Ø_insert",
    unit="",
    hard=AtLeast(Bound("box_holes.new_inserts_keep_their_distance.least", 1.5, "common practice, no source")),
    severity=Severity.DAMAGE,
    caution="A laminate that is drilled again cracks from hole to hole. This cannot be taken back.",
    remedy_hint="move or turn the box until every new hole is clear of the old ones",
    examples=(
        Example(
            "20 mm from the old hole",
            {"new_insert.distance_from_old": 20.0, "new_insert.insert_outer_diameter": (6.9, 7.0, 7.1)},
            "holds",
            1.357,
        ),
        Example(
            "9 mm from the old hole",
            {"new_insert.distance_from_old": 9.0, "new_insert.insert_outer_diameter": (6.9, 7.0, 7.1)},
            "fails",
            -0.214,
            two_numbers="9 mm is more than the 7 mm of the insert: the holes do not touch",
        ),
        Example(
            "exactly on the limit",
            {"new_insert.distance_from_old": 12.0, "new_insert.insert_outer_diameter": 8.0},
            "holds",
            0.0,
        ),
        Example("distance unread", {"new_insert.insert_outer_diameter": 8.0}, "undecided"),
    ),
)
