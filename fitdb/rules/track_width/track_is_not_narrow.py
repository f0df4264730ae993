"""Weight on the edge of a deck that stands far outside the wheels tips the board over them before it leans."""

from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity


def quantity(outer_face: float, deck_width: float) -> float:
    return outer_face - deck_width / 2.0


RULE = Rule(
    question="Do the wheels stand far enough out under the deck?",
    needs=("wheel.outer_face", "deck.width"),
    quantity=quantity,
    measures="how far the wheel's outer face stands outside the edge of the standing platform",
    formula="o = y_out − width/2",
    unit="mm",
    hard=AtLeast(Bound("track_width.track_is_not_narrow.least", -45.0, "common practice, no source")),
    comfort=AtLeast(Bound("track_width.track_is_not_narrow.comfort", -15.0, "common practice, no source")),
    severity=Severity.NUISANCE,
    remedy_hint="a wider hanger, axle spacers, or a narrower deck",
    examples=(
        Example(
            "a wheel that ends 8 mm outside the edge",
            {"wheel.outer_face": (122.5, 123.0, 123.5), "deck.width": (229.0, 230.0, 231.0)},
            "holds",
            53.0,
        ),
        Example("a 130 mm track under a wide deck", {"wheel.outer_face": 76.0, "deck.width": 260.0}, "fails", -9.0),
        Example("exactly on the limit", {"wheel.outer_face": 70.0, "deck.width": 230.0}, "holds", 0.0),
        Example("place of the wheel unread", {"deck.width": 230.0}, "undecided"),
    ),
)
