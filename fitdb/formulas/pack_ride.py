"""How long a pack lasts: discharges of whole packs as arrays, and rides over a track with climbs and descents.

The pack is open-circuit volts, straight between the points of a table, behind one resistance; within 3 % of a full
cell model up to twice the one-hour current at 25 °C. Above that, or in the cold, a real pack gives less.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from fitdb.formulas.cell_volts import cell_volts

Array = NDArray[np.float64]
STEPS = 141  # points over the charge, seven to each stretch of the tables: exact to a ten-thousandth


@dataclass(frozen=True, slots=True)
class PackStore:
    """What a pack holds. series cells; capacity Ah of the pack; resistance ohm; end_volts V at the terminals, where
    power has faded out; chemistry of its cells. Arrays of one length, one row per draw."""

    series: Array
    capacity: Array
    resistance: Array
    end_volts: Array
    chemistry: str

    def open_volts(self, charge_left: Array | float) -> Array:
        """Volts of the pack at rest, V, at a share of charge left."""
        return self.series * cell_volts(np.asarray(charge_left, dtype=float), self.chemistry)


@dataclass(frozen=True, slots=True)
class Lasting:
    """A discharge at constant power: hours, energy out of the terminals Wh, charge Ah, and the volts on the way.

    charge_left (STEPS,) from full to empty; volts (rows, STEPS) at the terminals, not a number past the end.
    """

    hours: Array
    energy: Array
    charge: Array
    charge_left: Array
    volts: Array


def lasting(store: PackStore, power: Array) -> Lasting:
    """How long a pack gives a power until its terminals reach the end volts, or cannot give it any more.

    ``power`` W above zero, one per row. t = ∫ Q/I ds over the charge, the end between two steps found on a straight
    line. A pack that cannot give the power when full lasts no time.
    """
    left = np.linspace(1.0, 0.0, STEPS)
    rest = store.series[:, None] * cell_volts(left, store.chemistry)
    under_root = rest * rest - 4.0 * store.resistance[:, None] * power[:, None]
    with np.errstate(invalid="ignore", divide="ignore"):
        current = 2.0 * power[:, None] / (rest + np.sqrt(under_root))
        volts = rest - store.resistance[:, None] * current
        slow = store.capacity[:, None] / current
    above = np.nan_to_num(volts - store.end_volts[:, None], nan=-1e9)
    step = 1.0 / (STEPS - 1)
    inside = np.minimum.accumulate(above > 0.0, axis=1)
    # The last step ends where the volts, straight between its two points, reach the end; where the power itself ends
    # first there is no second point, and the step is left out.
    share = np.where(above[:, 1:] > -1e8, above[:, :-1] / np.maximum(above[:, :-1] - above[:, 1:], 1e-12), 0.0)
    part = np.where(inside[:, 1:], 1.0, np.where(inside[:, :-1], np.clip(share, 0.0, 1.0), 0.0))
    there = np.where(np.isnan(slow[:, 1:]), slow[:, :-1], slow[:, 1:])
    ended = slow[:, :-1] + (there - slow[:, :-1]) * part
    hours = np.sum(np.where(part > 0.0, 0.5 * (slow[:, :-1] + ended) * part * step, 0.0), axis=1)
    charge = np.sum(part, axis=1) * step * store.capacity
    return Lasting(hours, hours * power, charge, left, np.where(inside, volts, np.nan))


@dataclass(frozen=True, slots=True)
class Ridden:
    """A ride over a track, row by row. All arrays (rows,) but those over the stretches (rows, stretches).

    drawn Wh taken out while driving; recovered Wh put back while braking; end_left share of charge at the end (0 where
    the pack was empty before); way m until the pack was empty, or the whole way; least_volts V at the terminals;
    greatest_current A. charge_left, volts and current are over the stretches. overfull (rows,): the braking charge that
    the pack could not take while it was full, Wh.
    """

    drawn: Array
    recovered: Array
    end_left: Array
    way: Array
    least_volts: Array
    greatest_current: Array
    charge_left: Array
    volts: Array
    current: Array
    overfull: Array


def ridden(
    store: PackStore,
    power: Array,
    seconds: Array,
    lengths: Array,
    most_charge: Array,
    most_volts: Array,
    start_left: float = 1.0,
) -> Ridden:
    """A ride of stretches one after the other, each at its own power.

    ``power`` W at the pack (below zero: braking), (rows, stretches); ``seconds`` that each takes, of that shape;
    ``lengths`` m of the stretches, (stretches,); ``most_charge`` A that braking may put in, ``most_volts`` V of the
    full pack above which nothing goes in, (rows,); ``start_left`` share of charge at the start. Power that the pack
    cannot give is cut at its peak; what it cannot take is left to another brake.
    """
    rows, stretches = power.shape
    left = np.full(rows, start_left)
    charge_left, volts, current = (np.empty((rows, stretches)) for _ in range(3))
    drawn, recovered, way, overfull = (np.zeros(rows) for _ in range(4))
    alive = np.ones(rows, dtype=bool)
    for index in range(stretches):
        rest = store.series * cell_volts(left, store.chemistry)
        # Charging raises the terminals: what goes in is at most what keeps them under the volts of the full pack.
        by_volts = np.maximum(most_volts - rest, 0.0) / store.resistance
        taken = np.minimum(most_charge, by_volts)
        least = -taken * (rest + taken * store.resistance)
        peak = rest * rest / (4.0 * store.resistance)
        wanted = np.minimum(power[:, index], peak)
        given = np.maximum(wanted, least)
        under_root = np.maximum(rest * rest - 4.0 * store.resistance * given, 0.0)
        flowing = 2.0 * given / (rest + np.sqrt(under_root))
        terminal = rest - flowing * store.resistance
        alive = alive & ~((terminal < store.end_volts) & (given > 0.0)) & (left > 0.0)
        hours = np.where(alive, seconds[:, index] / 3600.0, 0.0)
        overfull += np.where(by_volts < most_charge, (given - wanted) * hours, 0.0)
        drawn += np.maximum(given, 0.0) * hours
        recovered += np.maximum(-given, 0.0) * hours
        left = np.clip(left - flowing * hours / store.capacity, 0.0, 1.0)
        way += np.where(alive, lengths[index], 0.0)
        charge_left[:, index], volts[:, index], current[:, index] = left, terminal, np.where(alive, flowing, 0.0)
    return Ridden(
        drawn,
        recovered,
        np.where(alive, left, 0.0),
        way,
        np.min(volts, axis=1, initial=np.inf),
        np.max(current, axis=1, initial=0.0),
        charge_left,
        volts,
        current,
        overfull,
    )
