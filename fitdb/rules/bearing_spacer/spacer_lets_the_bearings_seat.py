"""A spacer much longer than the gap keeps the bearings from reaching their shoulders: they stand out of the core
and work loose.
"""

from fitdb.model.rule import AtMost, Bound, Example, Rule, Severity


def quantity(
    lengths: tuple[float, ...], extensions: tuple[float, ...], shims: tuple[float, ...], seat_gap: float
) -> float:
    return sum(lengths) + 2.0 * sum(extensions) + sum(shims) - seat_gap


RULE = Rule(
    question="Is the spacer short enough for both bearings to reach their shoulders?",
    needs=("spacer*.length", "spacer*.extension", "bearing_shim*.thickness", "wheel.seat_gap"),
    quantity=quantity,
    measures="spacer (or both built-in extensions) and shims, less the gap between the bearing seats",
    formula="Σl + 2·Σe + Σt − gap",
    unit="mm",
    hard=AtMost(Bound("bearing_spacer.spacer_lets_the_bearings_seat.most", 0.2, "common practice, no source")),
    severity=Severity.DAMAGE,
    examples=(
        Example(
            "10.1 mm spacer, 10.0 mm gap",
            {"spacer*.length": ((10.07, 10.1, 10.13),), "wheel.seat_gap": (9.95, 10.0, 10.05)},
            "holds",
            0.1,
        ),
        Example("exactly on the limit", {"spacer*.length": (10.2,), "wheel.seat_gap": 10.0}, "holds", 0.0),
        Example(
            "two built-in halves of 5.2 mm",
            {"spacer*.extension": (5.2,), "wheel.seat_gap": 10.0},
            "fails",
            -0.2,
            two_numbers="5.2 is less than 10: comparing two numbers says yes",
        ),
        Example("10 mm spacer, 8 mm gap", {"spacer*.length": (10.0,), "wheel.seat_gap": 8.0}, "fails", -1.8),
        Example("gap unread", {"spacer*.length": (10.0,)}, "undecided"),
    ),
)
