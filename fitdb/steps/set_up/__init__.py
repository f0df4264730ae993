"""Set up: the settings that cells, links, motors and controllers of a board leave, each with the link that sets it.

Pure: pieces in, a sheet out. Every limit is the rulebook's own or stricter, so that a board that is set to its sheet
does not clash with it; where a reading is missing the line says so, and its value is only a bound.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from fitdb.model.joint import Piece
from fitdb.model.part import AttributeTable
from fitdb.model.set_up import GROUPS, SettingLine, SettingsSheet
from fitdb.steps.set_up.currents import brake_lines, first_ride_lines, motor_lines, pack_lines
from fitdb.steps.set_up.readings import Board, Channels, channels_of, seat_words
from fitdb.steps.set_up.volts import speed_lines, volt_lines
from fitdb.steps.set_up.words import heat_lines, sensor_lines, task_lines

__all__ = ["seat_words", "set_up"]


def set_up(
    pieces: Iterable[Piece],
    table: AttributeTable,
    limits: Mapping[str, float] | None = None,
    now: Iterable[Piece] | None = None,
    layout: Iterable[str] = (),
) -> SettingsSheet:
    """The settings sheet of a board.

    pieces: the board as it would be built. limits: own limits by key, used where they are stricter than the rulebook's.
    now: the pieces whose settings stand now, where these are not those of `pieces`. layout: the seats that the board's
    layout has, so that what nobody named is told from what such a board does not have.
    """
    seated = {piece.seat: piece for piece in pieces}
    board = Board(table, seated, limits or {}, frozenset(layout))
    if not board.controllers() and not board.motors():
        return SettingsSheet((), (), 0, 0, ("No controller is named: nothing can be set.",))
    present = {piece.seat: piece for piece in now} if now is not None else seated
    channels = channels_of(board)
    unread = board.taken()
    currents = [
        *pack_lines(board, channels, present),
        *brake_lines(board, channels, present),
        *motor_lines(board, present),
    ]
    drawn, braking = (next(line for line in currents if line.id == name) for name in ("pack_current", "braking_charge"))
    lines: list[SettingLine] = [
        *currents,
        *volt_lines(board, present, drawn),
        *speed_lines(board, present, braking),
        *heat_lines(),
        *sensor_lines(board, present),
        *task_lines(board, channels, present),
        *first_ride_lines(currents),
    ]
    notes = [f"{one.title} ({one.seat}) is unread: the most that it may be is counted." for one in unread]
    ordered = sorted(lines, key=lambda line: GROUPS.index(line.group))
    return SettingsSheet(tuple(ordered), board.motors(), channels.used, channels.idle, (*notes, *_of(board, channels)))


def _of(board: Board, channels: Channels) -> list[str]:
    """What has to be known of channels and motors before any line is read."""
    motors, told = len(board.motors()), []
    if not board.controllers():
        told.append("No controller is named: nothing can be set.")
    elif channels.unnamed:
        told.append("No motor is named: every channel of the controllers is counted as driving one.")
    if channels.idle:
        told.append(
            f"{channels.idle} of {channels.used + channels.idle} channels drive no motor and are not counted here. The "
            "verdict counts every channel: say in the plan how many motors each controller drives."
        )
    if board.controllers() and channels.used < motors:
        told.append(
            f"{motors} motors stand against {channels.used} channels: the others are driven by nothing that is named."
        )
    return told
