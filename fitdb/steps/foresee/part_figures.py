"""What follows from a few parts, whatever else the board has: ratio, torque on a mount, the pack, and its charging."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

import numpy as np
from numpy.typing import NDArray

from fitdb.formulas.motors import torque_constant
from fitdb.model.joint import Piece
from fitdb.model.outlook import Figure
from fitdb.steps.foresee.board_drive import CONTROLLERS, PACKS, PLACES, convention, motor_current, ratio_at
from fitdb.steps.foresee.draws import Draws, by_seat
from fitdb.steps.foresee.told import Rows, told

Array = NDArray[np.float64]
# Volts of one cell: the middle that labels count with, full, and how far a charger may be off over the whole pack.
# Cell data sheets and the labels of packs and chargers; common practice, no source.
LABEL_VOLTS = {"nickel": 3.6, "phosphate": 3.2}
FULL_VOLTS = {"nickel": 4.20, "phosphate": 3.65}
CHARGER_OFF = 0.3
# The last of the charge goes in ever more slowly: 15 % more time in all. Common practice, no source.
SLOW_END = 1.15
RATED = "rated capacity times the volts of the label: how the UN Manual of Tests and Criteria 38.3 counts, from memory"


def part_figures(pieces: Mapping[str, Piece], draws: Draws) -> Iterator[Rows]:
    """Those figures whose parts are named; a board without a pack has no word on packs."""
    yield from _ratio(pieces, draws)
    yield from _mount_torque(pieces, draws)
    yield from _packs(pieces, draws)
    yield from _charging(pieces, draws)


def _ratio(pieces: Mapping[str, Piece], draws: Draws) -> Iterator[Rows]:
    figure = Figure("ratio", "turns of the motor per turn of the wheel", "", "speed", None, source="kinematics")
    for place in PLACES:
        turned = ratio_at(pieces, place, draws)
        if turned is not None:
            yield told(figure, turned[1], draws, unknown="nobody has counted the teeth, or read the ratio")
            return


def _mount_torque(pieces: Mapping[str, Piece], draws: Draws) -> Iterator[Rows]:
    """What a motor mount has to hold: the belt turns it about the axle as hard as it turns the wheel the other way."""
    controllers = by_seat(pieces, *CONTROLLERS)
    most: list[Array] = []
    for place in PLACES:
        motor, turned = pieces.get(f"{place}_motor"), ratio_at(pieces, place, draws)
        if motor is None or f"{place}_motor_mount" not in pieces or turned is None or turned[1] is None:
            continue
        kv, current = draws.size(motor, "velocity_constant"), motor_current(motor, controllers, draws)
        if kv is not None and current is not None:
            most.append(torque_constant(1.0) / kv * current * convention(controllers, draws) * turned[1])
    if most:
        title = "torque that turns each motor mount on its hanger at the greatest motor current"
        figure = Figure("mount_torque", title, "N m", "pull", None, source="statics: T = K_t·I·i")
        yield told(figure, np.max(most, axis=0), draws)


def _packs(pieces: Mapping[str, Piece], draws: Draws) -> Iterator[Rows]:
    packs = by_seat(pieces, *PACKS)
    if not packs:
        return
    energies, conductances = [], []
    for pack in packs:
        series, chemistry = draws.size(pack, "series"), draws.word(pack, "chemistry")
        held, parallel = draws.size(pack, "capacity_ah"), draws.size(pack, "parallel")
        cell, links = draws.size(pack, "cell_resistance"), draws.size(pack, "link_resistance")
        if series is not None and held is not None and len(chemistry) == 1:
            energies.append(held * series * LABEL_VOLTS[chemistry[0]])
        if series is not None and parallel is not None and cell is not None and links is not None:
            conductances.append(1.0 / (series / parallel * cell + links))
    figure = Figure("pack_energy", "energy of the pack as it is rated", "Wh", "range", None, source=RATED)
    energy = np.sum(energies, axis=0) if len(energies) == len(packs) else None
    needs = "it takes the cells in series, the capacity and the chemistry of every pack"
    yield told(figure, energy, draws, note="A ride never gets all of it out.", unknown=needs)
    title = "resistance of the pack" if len(packs) == 1 else "resistance of the packs together"
    figure = Figure("pack_resistance", title, "mohm", "pack", None, source="Ohm's law, cells in series and parallel")
    together = 1.0 / np.sum(conductances, axis=0) if len(conductances) == len(packs) else None
    needs = "it takes the cells in series and in parallel, and their resistance"
    yield told(figure, together, draws, unknown=needs)
    if len(packs) > 1:
        title = "share of the current that the second pack gives"
        figure = Figure("second_pack_share", title, "percent", "pack", None, source="Kirchhoff: current divider")
        share = None if together is None else 100.0 * conductances[1] * together
        yield told(figure, share, draws, note="The pack of less resistance works harder.", unknown=needs)


def _charging(pieces: Mapping[str, Piece], draws: Draws) -> Iterator[Rows]:
    """Where a charger stops, per cell, and how long it takes; no time is told for a charger made for another pack."""
    charger, pack = pieces.get("charger"), pieces.get("pack")
    if charger is None or pack is None:
        return
    stops, series = draws.size(charger, "open_volts"), draws.size(pack, "series")
    chemistry = draws.word(pack, "chemistry")
    full = FULL_VOLTS[chemistry[0]] if len(chemistry) == 1 else None
    title = "volts of each cell at which the charger stops"
    figure = Figure("charge_cell_volts", title, "V", "pack", None, source="Kirchhoff: cells in series share the volts")
    per_cell = None if stops is None or series is None else stops / series
    note = "" if full is None else f"These cells are full at {full:.2f} V."
    unread = "nobody has read the volts of the charger, or counted the cells in series"
    yield told(figure, per_cell, draws, note=note, unknown=unread)
    title = "time on the charger, from empty to full"
    figure = Figure("charge_time", title, "h", "pack", None, source="charge over current; common practice, no source")
    current, held = draws.size(charger, "charge_current"), draws.size(pack, "capacity_ah")
    if per_cell is None or series is None or full is None or current is None or held is None:
        yield told(figure, None, draws, unknown="it takes volts and amperes of the charger, and the charge of the pack")
    elif abs(float((per_cell[0] - full) * series[0])) > CHARGER_OFF:
        yield told(figure, None, draws, unknown="this charger is made for another pack: do not join them")
    else:
        yield told(figure, held / current * SLOW_END, draws, note="The last of the charge goes in slowly.")
