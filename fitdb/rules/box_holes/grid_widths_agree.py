"""The outer screws of box and deck have to lie equally far apart across the board, give or take the play of a screw in
its hole. Where holes and inserts are drawn, the screws themselves decide instead.
"""

from fitdb.model.rule import Between, Bound, Example, Rule, Severity


def quantity(box: float, inserts: float) -> float:
    return box - inserts


RULE = Rule(
    question="Are the outer screws of box and deck equally far apart across the board?",
    needs=("enclosure.grid_width", "deck.grid_width"),
    quantity=quantity,
    measures="distance of the box's outer holes less that of the inserts, across the board",
    formula="Δ = g_box − g_inserts",
    unit="mm",
    hard=Between(
        Bound("box_holes.grid_widths_agree.low", -0.5, "ISO 273: M4 in a medium hole of 4.5 mm"),
        Bound("box_holes.grid_widths_agree.high", 0.5, "ISO 273: M4 in a medium hole of 4.5 mm"),
    ),
    severity=Severity.DAMAGE,
    excused_by="box_holes.screws_drop_in",
    remedy_hint="slot the holes and use washers, put an adapter frame between, or set new inserts",
    examples=(
        Example("equal grids", {"enclosure.grid_width": 200.0, "deck.grid_width": (199.8, 200.0, 200.2)}, "holds", 0.5),
        Example("six mm apart", {"enclosure.grid_width": 206.0, "deck.grid_width": 200.0}, "fails", -5.5),
        Example("exactly on the limit", {"enclosure.grid_width": 200.5, "deck.grid_width": 200.0}, "holds", 0.0),
        Example(
            "both grids read with a ruler",
            {"enclosure.grid_width": (199.3, 200.0, 200.7), "deck.grid_width": (199.3, 200.0, 200.7)},
            "undecided",
            0.5,
            two_numbers="200 is 200: two numbers say yes, two rulers together cannot",
        ),
        Example("inserts unread", {"enclosure.grid_width": 200.0}, "undecided"),
    ),
)
