"""Foresee: what a board will do, from its parts: figures with ranges, curves, and how much care it asks for.

Nothing is judged here. Every figure is worked out for the board as it was read and again for some hundred boards whose
readings are drawn from their ranges; the range told is where nine of ten of those lie.
"""

from __future__ import annotations

from collections.abc import Mapping

from fitdb.model.finding import Range
from fitdb.model.joint import Piece
from fitdb.model.outlook import Outlook
from fitdb.model.part import AttributeTable, Part
from fitdb.model.source import Source
from fitdb.model.trace import Trace
from fitdb.steps.foresee.board_drive import Unknown, body_of, drive_of
from fitdb.steps.foresee.body_figures import body_figures, least_of, stability
from fitdb.steps.foresee.brake_figures import brake_figures
from fitdb.steps.foresee.curves import missing_charts, ride_charts, turning_chart
from fitdb.steps.foresee.draws import Draws, Memory
from fitdb.steps.foresee.part_figures import part_figures
from fitdb.steps.foresee.ride_figures import Ride, ride_figures, ride_of, without_pack
from fitdb.steps.foresee.told import Rows

NOBODY = Source("nobody", "default", "nobody named one", "common practice, no source")


def foresee(
    board: str,
    pieces: Mapping[str, Piece],
    traces: Mapping[str, tuple[Trace, ...]],
    table: AttributeTable,
    *,
    memory: Memory | None = None,
    charts: bool = True,
    tops: tuple[float, ...] = (),
) -> tuple[Outlook, Mapping[str, Rows], Ride | None, Draws]:
    """The outlook of one board. `board` is one of outlook.BOARDS, `pieces` by seat, `traces` its worked-out sizes.

    The rows of every figure come with it, so that two boards can be held against each other draw by draw; the same
    reading has the same draws on both. `memory` is what the boards of one answer share, so that it is worked out once;
    `tops` are the speeds that they reach, m/s, so that all are told at the same speeds.
    """
    draws = Draws(table, memory or Memory())
    rider, route = rider_and_route(pieces)
    body = body_of(pieces, rider, route, draws)
    found: list[Rows] = []
    ride: Ride | None = None
    lines = missing_charts(body.why if isinstance(body, Unknown) else "")
    if not isinstance(body, Unknown):
        drive = drive_of(pieces, body, draws)
        if isinstance(drive, Unknown):
            found += without_pack(pieces, body, draws, drive.why)
            lines = missing_charts(drive.why)
        else:
            ride = ride_of(pieces, *drive, body, draws, tops)
            found += (*ride_figures(pieces, ride, draws), *brake_figures(pieces, ride, draws))
            lines = ride_charts(board, ride, draws) if charts else ()
    found += part_figures(pieces, draws)
    found += body_figures(pieces, traces, None if isinstance(body, Unknown) else body, draws)
    turning = (turning_chart(board, traces, pieces, draws),) if charts else ()
    rows = {one.figure.id: one for one in found}
    top = rows.get("top_speed_full")
    fastest = float(top.rows[0]) if top is not None and top.rows is not None else None
    outlook = Outlook(
        board,
        {own: one.figure for own, one in rows.items()},
        (*lines, *turning),
        stability(pieces, traces, fastest, draws),
        _sizes(traces, draws),
    )
    return outlook, rows, ride, draws


def top_of(pieces: Mapping[str, Piece], table: AttributeTable) -> float | None:
    """The speed in m/s that the nominal board reaches with its pack half full; None where that cannot be told."""
    draws = Draws(table, count=0)
    body = body_of(pieces, *rider_and_route(pieces), draws)
    drive = body if isinstance(body, Unknown) else drive_of(pieces, body, draws)
    if isinstance(body, Unknown) or isinstance(drive, Unknown):
        return None
    return float(ride_of(pieces, *drive, body, draws).top["half"][0][0])


def rider_and_route(pieces: Mapping[str, Piece]) -> tuple[Piece, Piece]:
    """Those of the plan, or ones of whom nothing has been read."""
    return pieces.get("rider") or _nobody("rider"), pieces.get("route") or _nobody("route")


def _nobody(name: str) -> Piece:
    """A rider or route of whom nothing has been read: what stands in for each reading is told as assumed."""
    return Piece(name, Part(name, name, f"{name} that nobody named", {}, {}, NOBODY), by_default=True)


def _sizes(traces: Mapping[str, tuple[Trace, ...]], draws: Draws) -> dict[str, Range]:
    """Worked-out sizes for drawings, mm or degrees, with the whole range of their draws."""
    sizes = {}
    for name, some in traces.items():
        rows = least_of(some, draws)
        if rows is not None:
            unit = some[0].rule.unit
            sizes[name] = Range(float(rows.min()), float(rows[0]), float(rows.max()), unit)
    return sizes
