"""Half a milliampere takes an ampere hour in eighty days. Cells that were run empty over the winter are dead, and a
dead cell that is charged can burn.
"""

from fitdb.model.rule import AtMost, Bound, Example, Rule, Severity


def quantity(in_the_pack: float, outside: tuple[float, ...]) -> float:
    return in_the_pack + sum(outside)


RULE = Rule(
    question="Does the board draw little while it stands?",
    needs=("pack.standby_current", "standing*.standby_current"),
    quantity=quantity,
    measures="current of all that stays on while the board is switched off",
    formula="I = Σ I_standby",
    unit="A",
    hard=AtMost(Bound("standby_drain.pack_outlasts_the_winter.most", 0.001, "common practice, no source")),
    comfort=AtMost(Bound("standby_drain.pack_outlasts_the_winter.comfort", 0.0005, "common practice, no source")),
    severity=Severity.NUISANCE,
    caution="Over the winter unplug the pack, at 3.75 to 3.85 V per cell, and look at its volts once a month.",
    remedy_hint="a switch or plug before what draws, or another converter",
    examples=(
        Example(
            "meter and switch",
            {"pack.standby_current": 0.0001, "standing*.standby_current": (0.0004, 0.0002)},
            "holds",
            0.0003,
        ),
        Example(
            "three parts, each below a milliampere",
            {"pack.standby_current": 0.0002, "standing*.standby_current": (0.0008, 0.0004)},
            "fails",
            -0.0004,
            two_numbers="0.8 mA is less than 1 mA: comparing two numbers says yes",
        ),
        Example(
            "exactly on the limit",
            {"pack.standby_current": 0.0002, "standing*.standby_current": (0.0008,)},
            "holds",
            0.0,
        ),
        Example("pack unread", {"standing*.standby_current": (0.0004,)}, "undecided"),
    ),
)
