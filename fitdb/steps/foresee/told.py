"""A figure from its rows: the middle, the range of the draws, what moves it."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from fitdb.model.finding import Range
from fitdb.model.outlook import Figure, Mover
from fitdb.steps.foresee.draws import MIDDLE, Draws

Array = NDArray[np.float64]
MOST_MOVERS = 3


@dataclass(frozen=True, slots=True)
class Rows:
    """A figure row by row, the nominal one first; `figure` has its words. Unknown figures have no rows."""

    figure: Figure
    rows: Array | None


def told(
    figure: Figure, rows: Array | None, draws: Draws, *, limited_by: str = "", note: str = "", unknown: str = ""
) -> Rows:
    """The figure with its value, range and movers; infinite rows have no range, and are unknown for a reason."""
    if rows is None:
        return Rows(replace(figure, unknown=unknown), None)
    if not np.isfinite(rows[0]):
        return Rows(replace(figure, unknown=unknown or "it never comes to an end", note=note), None)
    finite = rows[np.isfinite(rows)]
    if (never := 100.0 * (1.0 - len(finite) / len(rows))) > 0.0:
        note = f"{note} Of 100 boards drawn {max(never, 1.0):.0f} never get there; the range is of the others.".lstrip()
    low, high = np.percentile(finite, MIDDLE)
    value = Range(min(float(low), float(rows[0])), float(rows[0]), max(float(high), float(rows[0])), figure.unit)
    ranked = sorted(draws.movers(rows), key=lambda mover: -mover[1])[:MOST_MOVERS]
    movers = tuple(Mover(one.seat, one.part, one.attribute, one.title, share, one.assumed) for one, share in ranked)
    return Rows(replace(figure, value=value, movers=movers, limited_by=limited_by, note=note), rows)
