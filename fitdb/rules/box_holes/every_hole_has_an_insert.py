"""A screw left out leaves a gap in the seal and puts its load on its neighbours."""

from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity, Shape


def quantity(inserts: int, holes: int) -> float:
    return float(inserts - holes)


RULE = Rule(
    question="Is there an insert for every hole of the box?",
    needs=("deck.insert_count", "enclosure.hole_count"),
    quantity=quantity,
    measures="inserts in the deck less holes in the rim",
    formula="n = inserts − holes",
    unit="",
    hard=AtLeast(Bound("box_holes.every_hole_has_an_insert.least", 0.0, "plane geometry")),
    severity=Severity.DAMAGE,
    shape=Shape.STEPPED,
    remedy_hint="set the missing inserts",
    examples=(
        Example("ten inserts, eight holes", {"deck.insert_count": 10, "enclosure.hole_count": 8}, "holds", 2.0),
        Example("six inserts, eight holes", {"deck.insert_count": 6, "enclosure.hole_count": 8}, "fails", -2.0),
        Example("exactly on the limit", {"deck.insert_count": 8, "enclosure.hole_count": 8}, "holds", 0.0),
        Example("inserts not counted", {"enclosure.hole_count": 8}, "undecided"),
    ),
)
