"""The braking charge divides itself over two packs by their resistances as well. The pack of less resistance takes most
of it, and its cells may be the ones that take least. Beside a pack behind diodes it takes all.
"""

from fitdb.formulas.pack_flow import braking_charge_asked, current_share
from fitdb.model.rule import NOTHING_TO_GUARD, AtLeast, Bound, Example, NothingToGuard, Rule, Severity, Shape


def quantity(
    parallel: int,
    cell_current: float,
    resistance: float,
    other_resistance: float,
    settings: tuple[float, ...],
    channels: tuple[int, ...],
    coupling: str,
    other_coupling: str,
) -> float | NothingToGuard:
    if not settings or coupling == "diodes":
        return NOTHING_TO_GUARD
    share = 1.0 if other_coupling == "diodes" else current_share(resistance, other_resistance)
    return parallel * cell_current - braking_charge_asked(settings, channels) * share


RULE = Rule(
    question="Do the cells bear their share of the braking charge?",
    needs=(
        "pack.parallel",
        "pack.cell_charge_current",
        "pack.resistance",
        "other_pack.resistance",
        "controller*.braking_charge_limit",
        "controller*.channels",
        "pack.coupling",
        "other_pack.coupling",
    ),
    quantity=quantity,
    measures="charge that the cells of this pack take, less its share of the braking charge that is set",
    formula="m = P·I_charge − I_brake·R₂/(R₁ + R₂), all of I_brake where the other is behind diodes",
    unit="A",
    hard=AtLeast(Bound("packs_in_parallel.share_of_the_charge_is_borne.least", 0.0, "common practice, no source")),
    severity=Severity.FIRE,
    shape=Shape.SAMPLED,
    caution=(
        "Do not charge below freezing — that includes braking charge in the first minutes of a winter ride. A full pack"
        " takes no charge."
    ),
    remedy_hint="a lower braking-charge limit (the brake weakens), or packs of like cells and age",
    examples=(
        Example(
            "12 A over two like packs of 3 cells of 4 A",
            {
                "pack.parallel": 3,
                "pack.cell_charge_current": 4.0,
                "pack.resistance": 95.0,
                "other_pack.resistance": 95.0,
                "pack.coupling": "leads",
                "other_pack.coupling": "leads",
                "controller*.braking_charge_limit": (6.0,),
                "controller*.channels": (2,),
            },
            "holds",
            6.0,
        ),
        Example(
            "2 cells of 2.5 A beside an old pack, 12 A",
            {
                "pack.parallel": 2,
                "pack.cell_charge_current": 2.5,
                "pack.resistance": 80.0,
                "other_pack.resistance": 240.0,
                "pack.coupling": "leads",
                "other_pack.coupling": "leads",
                "controller*.braking_charge_limit": (6.0,),
                "controller*.channels": (2,),
            },
            "fails",
            -4.0,
            two_numbers="together they take 17 A and 12 A are set: two numbers say yes",
        ),
        Example(
            "the other pack behind diodes: this one takes all",
            {
                "pack.parallel": 3,
                "pack.cell_charge_current": 4.0,
                "pack.resistance": 95.0,
                "other_pack.resistance": 95.0,
                "pack.coupling": "leads",
                "other_pack.coupling": "diodes",
                "controller*.braking_charge_limit": (8.0,),
                "controller*.channels": (2,),
            },
            "fails",
            -4.0,
        ),
        Example(
            "exactly on the limit",
            {
                "pack.parallel": 2,
                "pack.cell_charge_current": 2.5,
                "pack.resistance": 100.0,
                "other_pack.resistance": 100.0,
                "pack.coupling": "leads",
                "other_pack.coupling": "leads",
                "controller*.braking_charge_limit": (5.0,),
                "controller*.channels": (2,),
            },
            "holds",
            0.0,
        ),
        Example(
            "no controller named",
            {
                "pack.parallel": 2,
                "pack.cell_charge_current": 2.5,
                "pack.resistance": 100.0,
                "other_pack.resistance": 100.0,
                "pack.coupling": "leads",
                "other_pack.coupling": "leads",
            },
            "excused",
        ),
        Example(
            "cell sheet lost",
            {
                "pack.parallel": 2,
                "pack.resistance": 100.0,
                "other_pack.resistance": 100.0,
                "pack.coupling": "leads",
                "other_pack.coupling": "leads",
                "controller*.braking_charge_limit": (6.0,),
                "controller*.channels": (2,),
            },
            "undecided",
        ),
    ),
)
