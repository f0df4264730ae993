"""A belt wanders a little on its pulleys. In a cover that is hardly wider it rubs its edge away and hums."""

from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity


def quantity(inner_width: float, belt_width: float) -> float:
    return inner_width - belt_width


RULE = Rule(
    question="Does the belt run free inside the cover?",
    needs=("belt_cover.inner_width", "belt.width"),
    quantity=quantity,
    measures="inner width of the cover less the width of the belt",
    formula="s = w_inner − w_belt",
    unit="mm",
    hard=AtLeast(Bound("belt_cover.belt_runs_free_inside.least", 3.0, "common practice, no source")),
    severity=Severity.NUISANCE,
    caution=(
        "Without a cover a turning belt draws in fingers, laces and hair. Wheels up on a firm stand, hands away, and "
        "unplug the pack before touching belt, pulley or motor."
    ),
    remedy_hint="a narrower belt, a wider cover, or a cover cut out on the inside",
    examples=(
        Example(
            "15 mm belt in a cover of 20 mm",
            {"belt_cover.inner_width": (19.8, 20.0, 20.2), "belt.width": (14.2, 15.0, 15.8)},
            "holds",
            2.0,
        ),
        Example("exactly on the limit", {"belt_cover.inner_width": 18.0, "belt.width": 15.0}, "holds", 0.0),
        Example(
            "15 mm belt in a cover of 16 mm",
            {"belt_cover.inner_width": 16.0, "belt.width": 15.0},
            "fails",
            -2.0,
            two_numbers="15 is less than 16: comparing two widths says yes",
        ),
        Example("cover unread", {"belt.width": 15.0}, "undecided"),
    ),
)
