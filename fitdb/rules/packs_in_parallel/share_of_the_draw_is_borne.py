"""A load divides itself over two packs by their resistances. The fresher pack of stronger cells carries more than its
share, whatever its size, and its cells can be overloaded while both together look strong enough.
"""

from fitdb.formulas.pack_flow import current_share
from fitdb.formulas.packs import asked_current
from fitdb.model.rule import NOTHING_TO_GUARD, AtLeast, Bound, Example, NothingToGuard, Rule, Severity, Shape


def quantity(
    parallel: int,
    cell_current: float,
    resistance: float,
    other_resistance: float,
    settings: tuple[float, ...],
    channels: tuple[int, ...],
) -> float | NothingToGuard:
    if not settings:
        return NOTHING_TO_GUARD
    share = current_share(resistance, other_resistance)
    return parallel * cell_current - asked_current(settings, channels) * share


RULE = Rule(
    question="Do the cells bear their share of the current drawn?",
    needs=(
        "pack.parallel",
        "pack.cell_continuous_current",
        "pack.resistance",
        "other_pack.resistance",
        "controller*.pack_current",
        "controller*.channels",
    ),
    quantity=quantity,
    measures="current that the cells of this pack give, less its share of what the controllers may draw",
    formula="m = P·I_cell − I_ask·R₂/(R₁ + R₂)",
    unit="A",
    hard=AtLeast(Bound("packs_in_parallel.share_of_the_draw_is_borne.least", 0.0, "common practice, no source")),
    severity=Severity.FIRE,
    shape=Shape.SAMPLED,
    caution="A pack cut off by its own protection hands the whole load to the other at once.",
    remedy_hint="a lower pack current in the controllers, or packs of like cells and age",
    examples=(
        Example(
            "60 A over two like packs of 3 cells of 20 A",
            {
                "pack.parallel": 3,
                "pack.cell_continuous_current": 20.0,
                "pack.resistance": 95.0,
                "other_pack.resistance": 95.0,
                "controller*.pack_current": (30.0,),
                "controller*.channels": (2,),
            },
            "holds",
            30.0,
        ),
        Example(
            "2 fresh cells of 20 A beside an old pack, 60 A",
            {
                "pack.parallel": 2,
                "pack.cell_continuous_current": 20.0,
                "pack.resistance": 80.0,
                "other_pack.resistance": 240.0,
                "controller*.pack_current": (30.0, 30.0),
                "controller*.channels": (1, 1),
            },
            "fails",
            -5.0,
            two_numbers="together they give 100 A and 60 A are asked: two numbers say yes",
        ),
        Example(
            "exactly on the limit",
            {
                "pack.parallel": 2,
                "pack.cell_continuous_current": 15.0,
                "pack.resistance": 100.0,
                "other_pack.resistance": 100.0,
                "controller*.pack_current": (30.0,),
                "controller*.channels": (2,),
            },
            "holds",
            0.0,
        ),
        Example(
            "no controller named",
            {
                "pack.parallel": 2,
                "pack.cell_continuous_current": 15.0,
                "pack.resistance": 100.0,
                "other_pack.resistance": 100.0,
            },
            "excused",
        ),
        Example(
            "cell sheet lost",
            {
                "pack.parallel": 2,
                "pack.resistance": 100.0,
                "other_pack.resistance": 100.0,
                "controller*.pack_current": (30.0,),
                "controller*.channels": (2,),
            },
            "undecided",
        ),
    ),
)
