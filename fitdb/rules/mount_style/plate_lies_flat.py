"""The plate needs flat wood over its whole width. On a curve it rocks on two edges, and the bolts pull the deck into a
shape that it does not have.
"""

from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity


def quantity(flat_width: float, plate_width: float) -> float:
    return flat_width - plate_width


RULE = Rule(
    question="Is the deck flat over the whole width of the plate?",
    needs=("deck.flat_width", "truck.plate_width"),
    quantity=quantity,
    measures="flat wood beyond the width of the plate, both sides together",
    formula="f = flat width − plate width",
    unit="mm",
    hard=AtLeast(Bound("mount_style.plate_lies_flat.least", 0.0, "common practice, no source")),
    comfort=AtLeast(Bound("mount_style.plate_lies_flat.comfort", 4.0, "common practice, no source")),
    severity=Severity.DAMAGE,
    remedy_hint="a soft pad between plate and deck evens out a slight curve",
    two_numbers_suffice="one width against one width; the spread of both readings is all there is to it",
    examples=(
        Example(
            "110 mm of flat wood, 60 mm plate",
            {"deck.flat_width": (108.0, 110.0, 112.0), "truck.plate_width": 60.0},
            "holds",
            50.0,
        ),
        Example("deep concave", {"deck.flat_width": 52.0, "truck.plate_width": 60.0}, "fails", -8.0),
        Example("exactly on the limit", {"deck.flat_width": 60.0, "truck.plate_width": 60.0}, "holds", 0.0),
        Example("flat width unread", {"truck.plate_width": 60.0}, "undecided"),
    ),
)
