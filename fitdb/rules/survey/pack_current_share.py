"""How much of the current a pack gives beside another: the pack of less resistance gives more of it, and an old pack
beside a new one leaves the new one most of the work. Equal cells in parallel would share evenly.
"""

from fitdb.formulas.packs import pack_shares
from fitdb.model.rule import SurveyLine


def quantity(
    series: tuple[float, ...],
    parallel: tuple[float, ...],
    cells: tuple[float, ...],
    links: tuple[float, ...],
    other_series: tuple[float, ...],
    other_parallel: tuple[float, ...],
    other_cells: tuple[float, ...],
    other_links: tuple[float, ...],
) -> float:
    own, others = (series, parallel, cells, links), (other_series, other_parallel, other_cells, other_links)
    return pack_shares(own, others)


LINE = SurveyLine(
    target="pack.current_share",
    needs=(
        "pack*.series",
        "pack*.parallel",
        "pack*.cell_resistance",
        "pack*.link_resistance",
        "parallel_pack*.series",
        "parallel_pack*.parallel",
        "parallel_pack*.cell_resistance",
        "parallel_pack*.link_resistance",
    ),
    quantity=quantity,
    measures="share of the current of all packs on the rail that this pack gives",
    formula="k = (1/R)/Σ(1/R), R = S/P·r_cell + R_links; P/ΣP where no resistance can be had",
    unit="",
    source="Kirchhoff's law of currents, current divider; like open-circuit volts",
    examples=(
        (
            {
                "pack*.series": (12,),
                "pack*.parallel": (3,),
                "pack*.cell_resistance": (10.0,),
                "pack*.link_resistance": (15.0,),
            },
            1.0,
        ),
        (
            {
                "pack*.series": (12,),
                "pack*.parallel": (3,),
                "pack*.cell_resistance": (10.0,),
                "pack*.link_resistance": (15.0,),
                "parallel_pack*.series": (12,),
                "parallel_pack*.parallel": (3,),
                "parallel_pack*.cell_resistance": (35.0,),
                "parallel_pack*.link_resistance": (15.0,),
            },
            0.7381,
        ),
        ({"pack*.parallel": (3,), "parallel_pack*.parallel": (2,)}, 0.6),
    ),
)
