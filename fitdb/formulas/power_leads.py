"""Leads of the power side: how much current a lead bears where it lies, and the share of volts lost along it."""

from __future__ import annotations

from fitdb.formulas.wires import voltage_drop_v


def lead_current(area: float, laying: str, open_air: float, enclosed_bundle: float) -> float:
    """Current that a lead bears without end where it lies (A).

    area: copper of one core (mm2). laying: `open_air` (short, alone, air around it) or `enclosed_bundle` (with others
    in a sleeve or a closed box). open_air, enclosed_bundle: current density for each (A/mm2). ValueError for another
    laying.
    """
    if laying == "open_air":
        return area * open_air
    if laying == "enclosed_bundle":
        return area * enclosed_bundle
    raise ValueError(f"unknown laying {laying!r}: open_air or enclosed_bundle is wanted")


def share_of_volts_lost(current: float, length: float, area: float, volts: float, resistivity: float) -> float:
    """Volts lost along a pair of leads out and back, in per cent of the volts at its beginning.

    current in A, length of the pair one way in mm, area of one core in mm2, volts in V, resistivity in ohm mm2/m.
    ValueError for volts not above zero, and as `voltage_drop_v`. Source: Ohm.
    """
    if volts <= 0:
        raise ValueError(f"the volts of the rail must be above zero, not {volts}")
    return 100.0 * voltage_drop_v(current, length, area, resistivity=resistivity) / volts
