"""A spacer that is shorter than the gap leaves the bearings to carry the nut: they are loaded sideways, drag, and
die in weeks.
"""

from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity


def quantity(
    lengths: tuple[float, ...], extensions: tuple[float, ...], shims: tuple[float, ...], seat_gap: float
) -> float:
    return sum(lengths) + 2.0 * sum(extensions) + sum(shims) - seat_gap


RULE = Rule(
    question="Is the spacer at least as long as the gap between the seats?",
    needs=("spacer*.length", "spacer*.extension", "bearing_shim*.thickness", "wheel.seat_gap"),
    quantity=quantity,
    measures="spacer (or both built-in extensions) and shims, less the gap between the bearing seats",
    formula="Σl + 2·Σe + Σt − gap",
    unit="mm",
    hard=AtLeast(Bound("bearing_spacer.spacer_takes_the_load.least", 0.0, "common practice, no source")),
    severity=Severity.DAMAGE,
    caution=(
        "Without a spacer the nut may only be tightened until the wheel just turns freely, and the bearings live short."
    ),
    examples=(
        Example(
            "10.1 mm spacer, 10.0 mm gap",
            {"spacer*.length": ((10.07, 10.1, 10.13),), "wheel.seat_gap": (9.95, 10.0, 10.05)},
            "holds",
            0.1,
        ),
        Example("exactly on the limit", {"spacer*.length": (10.0,), "wheel.seat_gap": 10.0}, "holds", 0.0),
        Example("8 mm spacer, 10 mm gap", {"spacer*.length": (8.0,), "wheel.seat_gap": 10.0}, "fails", -2.0),
        Example(
            "the same with a 2 mm shim",
            {"spacer*.length": (8.0,), "bearing_shim*.thickness": (2.1,), "wheel.seat_gap": 10.0},
            "holds",
            0.1,
        ),
        Example(
            "two 10 mm sizes, each a tenth uncertain",
            {"spacer*.length": ((9.9, 10.0, 10.1),), "wheel.seat_gap": (9.9, 10.0, 10.1)},
            "undecided",
            0.0,
            two_numbers="10 is 10: comparing two numbers says yes",
        ),
        Example("gap unread", {"spacer*.length": (10.0,)}, "undecided"),
    ),
)
