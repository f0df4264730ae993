"""The BMS has one wire for every cell. On a pack of fewer cells it misses one and never lets the pack run; on a pack of
more cells one goes unwatched, and an unwatched cell is overcharged until it burns.
"""

from fitdb.model.rule import Between, Bound, Example, Rule, Severity


def quantity(bms_series: int, pack_series: int) -> float:
    return bms_series - pack_series


RULE = Rule(
    question="Is the BMS made for this number of cells in series?",
    needs=("bms.series", "pack.series"),
    quantity=quantity,
    measures="cells that the BMS watches, less cells in series in the pack",
    formula="d = S_bms − S_pack",
    unit="",
    hard=Between(
        Bound("bms_cells.series_equal.least", 0.0, "common practice, no source"),
        Bound("bms_cells.series_equal.most", 0.0, "common practice, no source"),
    ),
    severity=Severity.FIRE,
    caution=(
        "Do not open, weld or repair a pack unless you are trained for it. Ask a qualified pack builder. "
        "A lithium pack cannot be switched off. Treat its terminals as live at all times."
    ),
    refused=True,
    examples=(
        Example("ten and ten", {"bms.series": 10, "pack.series": 10}, "holds", 0.0),
        Example(
            "a board for thirteen on fourteen cells",
            {"bms.series": 13, "pack.series": 14},
            "fails",
            -1.0,
            two_numbers="both are sold as 48 V: the names agree",
        ),
        Example("a board for thirteen on twelve cells", {"bms.series": 13, "pack.series": 12}, "fails", -1.0),
        Example("board not counted", {"pack.series": 12}, "undecided"),
    ),
)
