"""Battery packs: volts, resistance, currents asked and currents that each link of the current chain bears."""

from __future__ import annotations

from collections.abc import Sequence


def full_volts(series: float, chemistry: str, nickel_full: float, phosphate_full: float) -> float:
    """Volts of the full pack (V).

    series: cells in series. chemistry: `nickel` (nickel-rich or oxide cathode) or `phosphate` (iron-phosphate).
    nickel_full, phosphate_full: full volts of one cell (V). ValueError for any other chemistry.
    """
    if chemistry == "nickel":
        return series * nickel_full
    if chemistry == "phosphate":
        return series * phosphate_full
    raise ValueError(f"unknown chemistry {chemistry!r}: nickel or phosphate is wanted")


def pack_resistance(series: float, parallel: float, cell_resistance: float, link_resistance: float) -> float:
    """Direct-current resistance of the pack (mohm).

    series, parallel: counts of cells. cell_resistance: of one cell (mohm). link_resistance: strips, leads and plugs
    of the pack (mohm). ValueError unless parallel is positive. Source: Ohm's law for cells in series and in parallel.
    """
    if parallel <= 0:
        raise ValueError(f"cells in parallel must be at least one, not {parallel}")
    return series / parallel * cell_resistance + link_resistance


def asked_current(settings: Sequence[float], channels: Sequence[float]) -> float:
    """Pack current that all controllers together may draw (A).

    settings: pack current of each controller for one motor (A). channels: motors that each controller drives.
    ValueError when the two differ in length.
    """
    return sum(setting * count for setting, count in zip(settings, channels, strict=True))


def shared_current(asked: float, parallel: float, other_packs: Sequence[float]) -> float:
    """Share of the asked current that one of several like packs in parallel gives (A).

    asked: current asked of all packs (A). parallel: cells in parallel of this pack. other_packs: cells in parallel of
    each other pack, all of the same cells; none leaves the whole current. ValueError unless parallel is positive.
    Source: Kirchhoff's law of currents for equal cells; unequal cells share unequally.
    """
    if parallel <= 0:
        raise ValueError(f"cells in parallel must be at least one, not {parallel}")
    return asked * parallel / (parallel + sum(other_packs))


def pack_share(parallel: float, resistance: float | None, others: Sequence[tuple[float, float | None]]) -> float:
    """Share of a current that one of several packs in parallel carries, 0 to 1: (1/R)/Σ(1/R).

    parallel: cells in parallel of this pack. resistance: of this pack (mohm). others: the same pair of each other pack;
    none leaves the whole current. Where one resistance cannot be had (None) the cells count as equal: P/ΣP. ValueError
    unless every count and resistance is positive. Source: Kirchhoff, current divider; like open-circuit volts.
    """
    if not others:
        return 1.0
    resistances = [ohms for ohms in (resistance, *(ohms for _, ohms in others)) if ohms is not None]
    if len(resistances) <= len(others):
        return shared_current(1.0, parallel, [count for count, _ in others])
    if min(resistances) <= 0:
        raise ValueError(f"the resistance of every pack in mohm must be above zero, not {min(resistances)}")
    return 1.0 / resistances[0] / sum(1.0 / ohms for ohms in resistances)


def pack_shares(
    own: tuple[Sequence[float], Sequence[float], Sequence[float], Sequence[float]],
    others: tuple[Sequence[float], Sequence[float], Sequence[float], Sequence[float]],
) -> float:
    """Share of a current that a pack carries beside others, 0 to 1, from the readings of each.

    own, others: cells in series, cells in parallel, resistance of one cell (mohm), resistance of the links (mohm), one
    value per pack. A column that is shorter than that of the cells in parallel has no resistance to give. ValueError
    as `pack_share`.
    """

    def each(columns: tuple[Sequence[float], ...]) -> list[tuple[float, float | None]]:
        counts = columns[1]
        if any(len(column) != len(counts) for column in columns):
            return [(count, None) for count in counts]
        return [(row[1], pack_resistance(*row)) for row in zip(*columns, strict=True)]

    ((parallel, resistance),) = each(own)
    return pack_share(parallel, resistance, each(others))


def short_circuit_current(volts: float, resistance: float) -> float:
    """Current of a dead short at the terminals of the pack (A).

    volts: of the full pack (V). resistance: of the pack (mohm). ValueError unless the resistance is positive.
    Source: Ohm.
    """
    if resistance <= 0:
        raise ValueError(f"the resistance of the pack in mohm must be above zero, not {resistance}")
    return 1000.0 * volts / resistance
