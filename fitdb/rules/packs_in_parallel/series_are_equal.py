"""Two packs on one rail have one and the same volts. With one cell more or less in series, one of them is overcharged
or emptied without end, and cells burn. No plug, lead or setting changes that.
"""

from fitdb.model.rule import Between, Bound, Example, Rule, Severity


def quantity(series: int, other_series: int) -> float:
    return float(series - other_series)


RULE = Rule(
    question="Have both packs the same number of cells in series?",
    needs=("pack.series", "other_pack.series"),
    quantity=quantity,
    measures="cells in series of this pack less those of the other",
    formula="ΔS = S₁ − S₂",
    unit="",
    hard=Between(
        Bound("packs_in_parallel.series_are_equal.least", 0.0, "Kirchhoff's law of volts"),
        Bound("packs_in_parallel.series_are_equal.most", 0.0, "Kirchhoff's law of volts"),
    ),
    severity=Severity.FIRE,
    refused=True,
    caution="Never join packs of different cell counts, by no adapter. Same plug does not mean same volts.",
    remedy_hint="another pack of the same number of cells in series",
    examples=(
        Example("12 and 12", {"pack.series": 12, "other_pack.series": 12}, "holds", 0.0),
        Example(
            "13 and 12",
            {"pack.series": 13, "other_pack.series": 12},
            "fails",
            -1.0,
            two_numbers="half charged both may rest at the same 47 V: two meter readings say yes",
        ),
        Example("the other counted doubtfully", {"pack.series": 12, "other_pack.series": {12, 13}}, "undecided"),
        Example("the other not counted", {"pack.series": 12}, "undecided"),
    ),
)
