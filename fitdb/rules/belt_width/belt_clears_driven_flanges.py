"""Between the flanges of the driven pulley the belt needs air on both sides together. A belt as wide as the face rubs
on one flange or the other all the time, and its edge is torn to shreds.
"""

from fitdb.model.rule import AtLeast, Bound, Example, Published, Rule, Severity


def quantity(face_width: float, belt_width: float) -> float:
    return face_width - belt_width


RULE = Rule(
    question="Does the belt run free between the flanges of the driven pulley?",
    needs=("driven_pulley.face_width", "belt.width"),
    quantity=quantity,
    measures="width of the toothed face less width of the belt",
    formula="s = b_face − w",
    unit="mm",
    hard=AtLeast(Bound("belt_width.belt_clears_driven_flanges.least", 0.5, "common practice, no source")),
    comfort=AtLeast(Bound("belt_width.belt_clears_driven_flanges.comfort", 1.0, "common practice, no source")),
    severity=Severity.DAMAGE,
    published=(Published("a 15 mm belt may be up to 0.8 mm wider than its name, a 9 mm belt 0.4 mm", "ISO 13050"),),
    remedy_hint="a narrower belt, if it still carries the pull",
    examples=(
        Example("15 mm belt, 16.8 mm face", {"driven_pulley.face_width": 16.8, "belt.width": 15.0}, "holds", 1.3),
        Example("exactly on the limit", {"driven_pulley.face_width": 15.5, "belt.width": 15.0}, "holds", 0.0),
        Example(
            "15 mm belt on a 15 mm face",
            {"driven_pulley.face_width": 15.0, "belt.width": 15.0},
            "fails",
            -0.5,
            two_numbers="15 is no more than 15: comparing two numbers says yes",
        ),
        Example(
            "15 mm by its name only, with the tolerance of the standard",
            {"driven_pulley.face_width": 16.0, "belt.width": (14.2, 15.0, 15.8)},
            "undecided",
            0.5,
        ),
        Example("face of the pulley unread", {"belt.width": 15.0}, "undecided"),
    ),
)
