"""The lines of volts and speeds: where power and braking charge fade, and the two ceilings (J50, J60, J64, J73)."""

from __future__ import annotations

import dataclasses
from collections.abc import Iterator, Mapping

from fitdb.formulas import setting_values as sv
from fitdb.formulas.electrical_speed import unloaded_electrical_speed
from fitdb.formulas.pack_flow import sag
from fitdb.formulas.packs import pack_resistance
from fitdb.intake.units import show
from fitdb.model.finding import Range
from fitdb.model.joint import Piece
from fitdb.model.set_up import AT_LEAST, AT_MOST, SettingLine, SettingLink
from fitdb.rules.braking_charge.cells_take_the_charge import RULE as CELLS_CHARGE
from fitdb.rules.cutoff_stack.fade_ends_before_the_bms_cuts import RULE as ABOVE_BMS
from fitdb.rules.cutoff_stack.fade_starts_above_its_end import RULE as WIDTH
from fitdb.rules.electrical_speed.speed_at_full_pack_stays_below_the_limit import RULE as REVS
from fitdb.rules.electrical_speed.speed_leaves_a_tenth import RULE as TENTH
from fitdb.rules.rail_volts.full_pack_within_rating import RULE as RAIL
from fitdb.rules.ride_brake.charge_limit_brakes_hard_enough import RULE as BRAKE
from fitdb.rules.ride_speed.speed_stays_under_the_ceiling import RULE as SPEED
from fitdb.steps.set_up.chain import RESISTANCES, draw_share, full_pack_volts, second
from fitdb.steps.set_up.lines import bounded, set_now
from fitdb.steps.set_up.readings import TRADE, Board, linked, over_box

RAIL_PARTS = ("controller", "controller_2", "bms", "bms_2", "switch", "pre_charge")
Now = Mapping[str, Piece]


def volt_lines(board: Board, now: Now, drawn: SettingLine) -> list[SettingLine]:
    """Volts of the whole pack between which power fades, and between which the braking charge fades.

    drawn: the line of the whole pack current, for the sag that a sudden pull makes.
    """
    if not board.packs():
        board.absent("pack", "no pack is named")
    end = bounded(
        "fade_end", "volts", "volts at which power has faded out", "V", AT_LEAST,
        [*_cells(board, "fade_end"), *_above_the_bms(board), *_least_volts(board)],
        now=set_now(now, board.controllers(), "soft_cutoff_end"), missing=board.taken(), caution=ABOVE_BMS.caution,
    )  # fmt: skip
    end = _told(board, end, drawn)
    start = bounded(
        "fade_start", "volts", "volts at which power begins to fade", "V", AT_LEAST,
        [*_cells(board, "fade_start"), *_above_its_end(board, end)],
        now=set_now(now, board.controllers(), "soft_cutoff_start"), missing=(*board.taken(), *end.missing)[:6],
        caution=WIDTH.caution,
    )  # fmt: skip
    charge_end = bounded(
        "brake_fade_end", "volts", "volts at which the braking charge has faded out", "V", AT_MOST,
        [*_cells(board, "brake_fade_end"), *_below_over_volts(board), *_below_the_rail(board)],
        missing=board.taken(), caution=RAIL.caution,
        notes=("No part on the rail may see more than 0.95 of its greatest volts, braking on a full pack included.",),
    )  # fmt: skip
    charge_start = bounded(
        "brake_fade_start", "volts", "volts at which the braking charge begins to fade", "V", AT_MOST,
        [*_cells(board, "brake_fade_start"), *_below_its_end(board, charge_end)],
        missing=(*board.taken(), *charge_end.missing)[:6], caution=CELLS_CHARGE.caution,
    )  # fmt: skip
    return [start, end, charge_start, charge_end]


def _cells(board: Board, what: str) -> Iterator[SettingLink]:
    """So many volts for each cell, by chemistry; where that is not known, the careful one of the two."""
    for pack, _, _ in board.packs():
        series, kinds = board.values(pack, "series"), board.words(pack, "chemistry")
        if not series or not kinds:
            continue
        each = [(sv.practice(f"{what}_{kind}"), kind) for kind in sorted(kinds)]
        volts = (min if what.startswith("brake") else max)(each)[0]
        value = over_box("V", lambda s, v=volts: sv.volts_of_pack(s, v), series)
        unsure = ", the careful one, for nobody said which chemistry it is" if len(kinds) > 1 else ""
        worked = f"{series[-1]:g} in series at {show(volts, 'V')}{unsure}"
        name = f"the cells{second(pack)}"
        yield SettingLink("cells", name, pack, board.part(pack), value, worked, TRADE, bool(unsure))


def _above_the_bms(board: Board) -> Iterator[SettingLink]:
    for pack, bms, _ in board.packs():
        if not board.has(bms):
            if bms == "bms":
                board.absent(bms, "no BMS is named")
            continue
        if board.words(bms, "discharge_bypassed") == {"yes"}:
            continue
        series, cut = board.values(pack, "series"), board.values(bms, "cell_under_volts")
        if series and cut:
            in_hand = board.least(ABOVE_BMS.hard)
            value = over_box("V", lambda s, c, d=in_hand: sv.volts_of_pack(s, c + d), series, cut)
            worked = f"it cuts at {show(cut[-1], 'V')} per cell, {show(in_hand, 'V')} above that, times {series[-1]:g}"
            yield SettingLink("bms_cut", f"the cut of the BMS{second(bms)}", bms, board.part(bms), value, worked, TRADE)


def _least_volts(board: Board) -> Iterator[SettingLink]:
    for seat in RAIL_PARTS:
        volts = board.reading(seat, "least_volts", "rail") and board.values(seat, "least_volts", "rail")
        if volts:
            value = over_box("V", lambda v: v, volts)
            worked = f"it works from {show(volts[-1], 'V')}"
            name = f"the least volts of the {seat.replace('_', ' ')}"
            yield SettingLink("least_volts", name, seat, board.part(seat), value, worked, TRADE)


def _told(board: Board, end: SettingLine, drawn: SettingLine) -> SettingLine:
    """The line with what has to be known of the BMS: that it is the one that sets the end, or that none will cut."""
    notes = []
    if end.set_by and end.set_by.id == "bms_cut":
        cells = next((show(one.value.nominal, "V") for one in end.others if one.id == "cells"), "the usual end")
        notes.append(f"The usual {cells} would not stay above the cut of the BMS: it is raised; the ride ends earlier.")
    for seat in ("bms", "bms_2"):
        if board.has(seat) and board.words(seat, "discharge_bypassed") == {"yes"}:
            notes.append("The BMS is by-passed: nothing but this fade guards the cells against being emptied too far.")
    board.taken()
    beyond = [one for one in end.now if one.beyond]
    cut = next((one for one in (end.set_by, *end.others) if one and one.id == "bms_cut"), None)
    if cut and any(one.value is not None and one.value < cut.value.high - 1e-9 for one in beyond):
        notes.append("As it is set now the BMS cuts before power has faded out: a dead stop of drive and brake.")
    notes += _sags_to_the_cut(board, end, drawn)
    notes.append("Under load the controller sees less than the BMS does, and fades first: that is as it should be.")
    return _with_notes(end, notes)


def _sags_to_the_cut(board: Board, end: SettingLine, drawn: SettingLine) -> list[str]:
    """Where a sudden full pull at the end of the fade sags to the cut of the BMS, before the controller can react."""
    notes = []
    for pack, bms, _ in board.packs():
        sizes = [board.at_its_widest(pack, name) for name in RESISTANCES]
        cut = board.values(bms, "cell_under_volts") if board.has(bms) else None
        if (
            board.reading(pack, "cell_resistance") is None
            or cut is None
            or end.printed is None
            or drawn.printed is None
        ):
            continue
        if any(size is None for size in sizes) or board.words(bms, "discharge_bypassed") == {"yes"}:
            continue
        resistance = over_box("mohm", pack_resistance, *(size[0] for size in sizes if size))
        share, series = max(draw_share(board, pack)[0]), max(size[0][-1] for size in sizes[:1] if size)
        sagging = sag(share * drawn.printed, resistance.high / 1000.0)
        left = end.printed - sv.volts_of_pack(series, max(cut))
        if sagging > left:
            pulled = f"{show(drawn.printed, 'A')} sags the pack{second(pack)} by up to {show(sagging, 'V')}"
            notes.append(
                f"A sudden pull of {pulled}, more than the {show(left, 'V')} between this end and the cut of the BMS: "
                "pull gently once the power fades."
            )
    board.taken()
    return notes


def _with_notes(line: SettingLine, notes: list[str]) -> SettingLine:
    return dataclasses.replace(line, notes=(*line.notes, *notes))


def _above_its_end(board: Board, end: SettingLine) -> Iterator[SettingLink]:
    yield from _beside_its_end(board, end, board.least(WIDTH.comfort), "fade_end", "its own end")


def _below_its_end(board: Board, end: SettingLine) -> Iterator[SettingLink]:
    yield from _beside_its_end(board, end, -sv.practice("brake_fade_width"), "brake_fade_end", "its own end")


def _beside_its_end(board: Board, end: SettingLine, width: float, link: str, name: str) -> Iterator[SettingLink]:
    """A fade needs some width: its start stands that much per cell above, or below, its end as it is typed."""
    for pack, _, _ in board.packs():
        series, typed = board.values(pack, "series"), end.printed
        if series and typed is not None:
            value = over_box("V", lambda s, e=typed: e + sv.volts_of_pack(s, width), series)
            where = "above" if width > 0 else "below"
            worked = f"{show(abs(width), 'V')} per cell {where} {show(typed, 'V')}"
            yield SettingLink(link, f"{name}{second(pack)}", pack, board.part(pack), value, worked, TRADE)


def _below_over_volts(board: Board) -> Iterator[SettingLink]:
    below = sv.practice("below_over_volts")
    for pack, bms, _ in board.packs():
        series = board.values(pack, "series")
        over = board.values(bms, "cell_over_volts") if board.has(bms) else None
        if series and over:
            value = over_box("V", lambda s, o: sv.volts_of_pack(s, o - below), series, over)
            worked = f"it ends the charge at {show(over[-1], 'V')} per cell, {show(below, 'V')} below that"
            name = f"the over-volts of the BMS{second(bms)}"
            yield SettingLink("over_volts", name, bms, board.part(bms), value, worked, TRADE)


def _below_the_rail(board: Board) -> Iterator[SettingLink]:
    share = sv.practice("rail_share")
    for seat in RAIL_PARTS:
        if not board.has(seat):
            continue
        volts = board.values(seat, "absolute_volts", "rail")
        if volts:
            value = over_box("V", lambda v: share * v, volts)
            worked = f"it bears {show(volts[-1], 'V')}, {share:g} of it"
            name = f"the greatest volts of the {seat.replace('_', ' ')}"
            yield SettingLink("rail", name, seat, board.part(seat), value, worked, TRADE)


def speed_lines(board: Board, now: Now, braking: SettingLine | None) -> list[SettingLine]:
    """The ceiling of the electrical speed, and the speed ceiling, which is the rider's own to choose."""
    revs = bounded(
        "rev_ceiling", "speed", "ceiling of the electrical speed", "rpm", AT_MOST, list(_rev_limits(board)),
        now=set_now(now, board.controllers(), "rev_ceiling"), missing=board.taken(), notes=_reached(board),
        caution=REVS.caution,
    )  # fmt: skip
    board.taken()
    wish = board.reading("wish", "speed_ceiling") and board.values("wish", "speed_ceiling")
    links = []
    if wish and wish[-1] > 0:
        value = Range(min(wish), wish[-1], max(wish), "km/h")
        name, worked = "what you wish for", "what you can stop from, or what your local rules leave"
        links = [SettingLink("wish", name, "wish", board.part("wish"), value, worked, "own reading")]
    speed = bounded(
        "speed_ceiling", "speed", "speed ceiling", "km/h", AT_MOST, links,
        now=set_now(now, board.controllers(), "speed_ceiling", none_from=200.0), notes=_braked_from(board, braking),
        caution=SPEED.caution,
    )  # fmt: skip
    if not links:
        task = "Yours to choose: what you can stop from without the motor, and what your local rules leave. Begin low."
        speed = dataclasses.replace(speed, task=task, source=TRADE)
    return [revs, speed]


def _rev_limits(board: Board) -> Iterator[SettingLink]:
    share = board.most(TENTH.comfort)
    for seat in board.controllers():
        limit = board.at_its_widest(seat, "electrical_speed_limit")
        if limit:
            value = over_box("rpm", lambda r: share * r, limit[0])
            worked = f"its limit is {show(limit[0][-1], 'rpm')}, {share:g} of it"
            name = f"the {seat.replace('controller_2', 'second controller')}"
            yield linked(board, "controller", name, seat, value, worked, unread=limit[1])


def _reached(board: Board) -> tuple[str, ...]:
    """How fast the motors get there at most, where that can be told."""
    volts = full_pack_volts(board)
    speeds = []
    for motor in board.motors():
        kv, pairs = board.values(motor, "velocity_constant"), board.values(motor, "pole_pairs")
        if kv and pairs and volts:
            speeds.append(over_box("rpm", lambda k, p: unloaded_electrical_speed(k, volts, p), kv, pairs))
    if not speeds or len(speeds) < len(board.motors()):
        return ()
    fastest = max(speeds, key=lambda one: one.high)
    span = f"{show(fastest.nominal, 'rpm')} ({show(fastest.low, 'rpm')} to {show(fastest.high, 'rpm')})"
    return (f"At the full pack the unloaded motors reach about {span}.",)


def _braked_from(board: Board, braking: SettingLine | None) -> tuple[str, ...]:
    """Up to which speed the braking charge of this sheet still slows the board well, where the mass is known."""
    rider, own = board.values("rider", "mass"), board.values("rider", "board_mass")
    packs = board.packs()
    series = board.values(packs[0][0], "series") if packs else None
    kinds = board.words(packs[0][0], "chemistry") if packs else frozenset()
    board.taken()
    if not (rider and own and series and kinds) or braking is None or not braking.printed:
        return ()
    cell = min(sv.practice(f"mean_{kind}") for kind in kinds)
    hard, way, charge = board.least(BRAKE.hard), sv.practice("way_to_pack"), braking.printed
    speed = over_box(
        "km/h", lambda m, b, s: sv.speed_still_braked(charge, s * cell, m + b, hard, way), rider, own, series
    )
    wide = f"{speed.low:.0f} to {speed.high:.0f} km/h"
    spread = f" ({wide})" if round(speed.low) != round(speed.high) else ""
    return (
        f"A braking charge of {show(charge, 'A')} slows this board by {show(hard, 'm/s2')} up to about "
        f"{show(round(speed.nominal), 'km/h')}{spread}, and less above.",
    )
