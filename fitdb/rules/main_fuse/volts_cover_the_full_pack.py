"""The amps of a fuse say when it melts, its volts say whether the arc goes out. Fuses for vehicles are made for 32 V:
on a pack of more than seven cells in series they melt, and go on burning.
"""

from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity


def quantity(absolute_volts: float, full_volts: float) -> float:
    return absolute_volts - full_volts


RULE = Rule(
    question="Does the fuse break the volts of the full pack?",
    needs=("fuse.absolute_volts", "pack.full_volts"),
    quantity=quantity,
    measures="direct volts that the fuse breaks, less the volts of the full pack",
    formula="m = V_fuse − V_full",
    unit="V",
    hard=AtLeast(Bound("main_fuse.volts_cover_the_full_pack.least", 0.0, "common practice, no source")),
    comfort=AtLeast(Bound("main_fuse.volts_cover_the_full_pack.comfort", 4.0, "common practice, no source")),
    severity=Severity.FIRE,
    caution=(
        "A fuse for 32 V may arc on and not clear. A lithium pack cannot be switched off: nothing stands behind "
        "this fuse."
    ),
    remedy_hint="a fuse for the direct volts of the full pack",
    refused=True,
    examples=(
        Example(
            "a 58 V fuse on thirteen cells",
            {"fuse.absolute_volts": 58.0, "pack.full_volts": 54.6},
            "holds",
            3.4,
        ),
        Example(
            "a vehicle fuse of 60 A on twelve cells",
            {"fuse.absolute_volts": 32.0, "pack.full_volts": 50.4},
            "fails",
            -18.4,
            two_numbers="60 A on the fuse and 40 A asked: the amps agree",
        ),
        Example("exactly on the limit", {"fuse.absolute_volts": 42.0, "pack.full_volts": 42.0}, "holds", 0.0),
        Example("volts not printed", {"pack.full_volts": 42.0}, "undecided"),
    ),
)
