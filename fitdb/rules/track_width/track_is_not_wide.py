"""A wheel that stands far outside the deck is trodden on when the rider moves a foot, and it throws the foot or
stops."""

from fitdb.model.rule import AtMost, Bound, Example, Rule, Severity


def quantity(outer_face: float, deck_width: float) -> float:
    return outer_face - deck_width / 2.0


RULE = Rule(
    question="Do the wheels stay clear of the rider's feet?",
    needs=("wheel.outer_face", "deck.width"),
    quantity=quantity,
    measures="how far the wheel's outer face stands outside the edge of the standing platform",
    formula="o = y_out − width/2",
    unit="mm",
    hard=AtMost(Bound("track_width.track_is_not_wide.most", 100.0, "common practice, no source")),
    comfort=AtMost(Bound("track_width.track_is_not_wide.comfort", 25.0, "common practice, no source")),
    severity=Severity.INJURY,
    caution=("Wheels beside the deck catch shoes and laces: closed shoes, laces tucked in, a guard over tall wheels."),
    remedy_hint="a narrower hanger, a wider deck, or guards over the wheels",
    examples=(
        Example(
            "a wheel that ends 8 mm outside the edge",
            {"wheel.outer_face": (122.5, 123.0, 123.5), "deck.width": (229.0, 230.0, 231.0)},
            "holds",
            92.0,
        ),
        Example(
            "a 220 mm hanger with tyres beside a narrow deck",
            {"wheel.outer_face": 205.0, "deck.width": 180.0},
            "fails",
            -15.0,
        ),
        Example("exactly on the limit", {"wheel.outer_face": 215.0, "deck.width": 230.0}, "holds", 0.0),
        Example("place of the wheel unread", {"deck.width": 230.0}, "undecided"),
    ),
)
