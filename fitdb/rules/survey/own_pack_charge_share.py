"""How much of a braking charge a pack takes beside another: the pack of less resistance takes more, a pack behind
diodes takes none, and one beside packs behind diodes takes all of it.
"""

from fitdb.formulas.packs import pack_shares
from fitdb.model.rule import SurveyLine


def quantity(
    coupling: tuple[str, ...],
    other_coupling: tuple[str, ...],
    series: tuple[float, ...],
    parallel: tuple[float, ...],
    cells: tuple[float, ...],
    links: tuple[float, ...],
    other_series: tuple[float, ...],
    other_parallel: tuple[float, ...],
    other_cells: tuple[float, ...],
    other_links: tuple[float, ...],
) -> float:
    if "diodes" in coupling and other_parallel:
        return 0.0
    if "diodes" in other_coupling:
        return 1.0
    own, others = (series, parallel, cells, links), (other_series, other_parallel, other_cells, other_links)
    return pack_shares(own, others)


LINE = SurveyLine(
    target="own_pack.charge_share",
    needs=(
        "own_pack*.coupling",
        "parallel_pack*.coupling",
        "own_pack*.series",
        "own_pack*.parallel",
        "own_pack*.cell_resistance",
        "own_pack*.link_resistance",
        "parallel_pack*.series",
        "parallel_pack*.parallel",
        "parallel_pack*.cell_resistance",
        "parallel_pack*.link_resistance",
    ),
    quantity=quantity,
    measures="share of the braking charge that this pack takes",
    formula="k = (1/R)/Σ(1/R), 0 behind diodes, 1 where the other is behind diodes; P/ΣP without resistances",
    unit="",
    source="Kirchhoff's law of currents, current divider; like open-circuit volts",
    examples=(
        (
            {
                "own_pack*.series": (12,),
                "own_pack*.parallel": (3,),
                "own_pack*.cell_resistance": (10.0,),
                "own_pack*.link_resistance": (15.0,),
                "parallel_pack*.series": (12,),
                "parallel_pack*.parallel": (3,),
                "parallel_pack*.cell_resistance": (35.0,),
                "parallel_pack*.link_resistance": (15.0,),
            },
            0.7381,
        ),
        (
            {
                "own_pack*.coupling": ("leads",),
                "parallel_pack*.coupling": ("diodes",),
                "own_pack*.series": (12,),
                "own_pack*.parallel": (3,),
                "own_pack*.cell_resistance": (10.0,),
                "own_pack*.link_resistance": (15.0,),
                "parallel_pack*.series": (12,),
                "parallel_pack*.parallel": (3,),
                "parallel_pack*.cell_resistance": (35.0,),
                "parallel_pack*.link_resistance": (15.0,),
            },
            1.0,
        ),
        (
            {
                "own_pack*.coupling": ("diodes",),
                "parallel_pack*.coupling": ("leads",),
                "own_pack*.series": (12,),
                "own_pack*.parallel": (3,),
                "own_pack*.cell_resistance": (10.0,),
                "own_pack*.link_resistance": (15.0,),
                "parallel_pack*.series": (12,),
                "parallel_pack*.parallel": (3,),
                "parallel_pack*.cell_resistance": (35.0,),
                "parallel_pack*.link_resistance": (15.0,),
            },
            0.0,
        ),
    ),
)
