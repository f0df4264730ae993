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


def short_circuit_current(volts: float, resistance: float) -> float:
    """Current of a dead short at the terminals of the pack (A).

    volts: of the full pack (V). resistance: of the pack (mohm). ValueError unless the resistance is positive.
    Source: Ohm.
    """
    if resistance <= 0:
        raise ValueError(f"the resistance of the pack in mohm must be above zero, not {resistance}")
    return 1000.0 * volts / resistance
