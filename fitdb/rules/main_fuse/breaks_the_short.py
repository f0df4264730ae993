"""In a dead short a small pack gives hundreds of amps: its volts over its resistance. A fuse that cannot break that
much bursts, and the arc goes on through the hole.
"""

from fitdb.formulas.packs import short_circuit_current
from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity


def quantity(breaking_current: float, full_volts: float, resistance: float) -> float:
    return breaking_current - short_circuit_current(full_volts, resistance)


RULE = Rule(
    question="Does the fuse break a dead short of this pack?",
    needs=("fuse.breaking_current", "pack.full_volts", "pack.resistance"),
    quantity=quantity,
    measures="current that the fuse breaks at its volts, less full volts over the resistance of the pack",
    formula="m = I_break − V_full / R_pack",
    unit="A",
    hard=AtLeast(Bound("main_fuse.breaks_the_short.least", 0.0, "common practice, no source")),
    severity=Severity.FIRE,
    caution=(
        "The short-circuit current of a small pack exceeds 700 A. Take off rings and watch; cover every open terminal."
    ),
    remedy_hint="a fuse with a breaking capacity above the short-circuit current",
    examples=(
        Example(
            "1000 A at twelve times four cells of 18 mΩ",
            {"fuse.breaking_current": 1000.0, "pack.full_volts": 50.4, "pack.resistance": (54.0, 69.0, 84.0)},
            "holds",
            269.565,
        ),
        Example(
            "500 A at the same pack",
            {"fuse.breaking_current": 500.0, "pack.full_volts": 50.4, "pack.resistance": (54.0, 69.0, 84.0)},
            "fails",
            -230.435,
            two_numbers="500 A > 60 A: breaking capacity against rated current says yes",
        ),
        Example(
            "exactly on the limit",
            {"fuse.breaking_current": 500.0, "pack.full_volts": 50.0, "pack.resistance": 100.0},
            "holds",
            0.0,
        ),
        Example("sheet of the fuse lost", {"pack.full_volts": 50.4, "pack.resistance": 69.0}, "undecided"),
    ),
)
