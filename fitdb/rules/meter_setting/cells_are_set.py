"""A charge gauge set to another number of cells shows full when the pack is half empty, or empty when it is full."""

from fitdb.model.rule import NOTHING_TO_GUARD, Between, Bound, Example, NothingToGuard, Rule, Severity, Shape


def quantity(shows: str, setting: int, series: int) -> float | NothingToGuard:
    return NOTHING_TO_GUARD if shows == "volts" else float(setting - series)


RULE = Rule(
    question="Is the charge gauge set to the cells of the pack?",
    needs=("meter.shows", "meter.series_setting", "pack.series"),
    quantity=quantity,
    measures="cells that the gauge is set to less cells in series",
    formula="Δ = S_set − S",
    unit="",
    hard=Between(
        Bound("meter_setting.cells_are_set.least", 0, "common practice, no source"),
        Bound("meter_setting.cells_are_set.most", 0, "common practice, no source"),
    ),
    severity=Severity.NUISANCE,
    shape=Shape.STEPPED,
    two_numbers_suffice="two counts that have to be one",
    remedy_hint="set the number of cells",
    examples=(
        Example(
            "set to 12 on 12, exactly on the limit",
            {"meter.shows": "charge", "meter.series_setting": 12, "pack.series": 12},
            "holds",
            0,
        ),
        Example(
            "set to 10 on 12", {"meter.shows": "charge", "meter.series_setting": 10, "pack.series": 12}, "fails", -2
        ),
        Example("shows volts", {"meter.shows": "volts", "meter.series_setting": 10, "pack.series": 12}, "excused"),
        Example("setting unread", {"meter.shows": "charge", "pack.series": 12}, "undecided"),
    ),
)
