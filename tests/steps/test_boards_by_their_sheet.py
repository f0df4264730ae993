"""Boards set exactly to their sheet, judged by the rulebook: no line may be looser than a rule that it can hold."""

from __future__ import annotations

import random
from collections import Counter
from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from random_boards import fill, random_board
from read_parts import SAID, number, with_readings

from fitdb.board import BoardJudge
from fitdb.catalogue.read import Book
from fitdb.model.finding import Finding
from fitdb.model.joint import Piece
from fitdb.model.part import Part
from fitdb.model.pattern import Pattern
from fitdb.model.reading import Count
from fitdb.model.rule import Rulebook
from fitdb.model.set_up import SettingsSheet
from fitdb.rules import rulebook
from fitdb.settings import settings

Shelf = tuple[Any, Book, dict[str, list[Part]]]

# What a setting can make fail: J54, J55, J57, J58, J60, J63, J64, and the joints that a motor current reaches beside
# them (J15, J22, J25, J59, J65, J71, J72). Whether a fuse guards its lead is no matter of settings.
HELD_BY_SETTINGS = (
    "current_chain.",
    "current_connector.",
    "fuse_current.",
    "power_lead.",
    "motor_current.",
    "electrical_speed.",
    "braking_charge.",
    "cutoff_stack.",
    "main_switch.current_leaves_a_fifth",
    "main_switch.opening_failure_is_kept_far",
    "phase_bullets.motor_side_bears_the_current",
    "phase_bullets.controller_side_bears_the_current",
    "belt_pull.pull_",
    "torque_lock.key_holds",
    "torque_lock.flat_bore_holds",
    "torque_lock.set_screw_on_flat_holds",
    "torque_lock.set_screw_on_round_holds",
    "torque_lock.bonded_hub_holds",
    "torque_lock.bush_holds",
    "torque_lock.slit_bush_holds",
    "controller_heat.current_suits_the_box",
    "packs_in_parallel.share_of_the_",
    "core_windows.lugs_bear_the_pull",
)
BOARDS = 200
LAYOUTS = (
    "two_wheel_belt",
    "single_belt",
    "four_wheel_belt",
    "gear_drive",
    "hub_motors",
    "direct_drive",
    "belt_with_hub_front",
    "two_wheel_belt_two_boxes",
)
# Of these classes only parts of which this was read, so that whole boards without a gap come about.
WELL_READ = {
    "pack": "cell_charge_current",
    "bms": "trip_current",
    "switch": "link_current",
    "lead": "laying",
    "power_connector": "link_current",
    "power_adapter_lead": "link_current",
    "controller": "phase_continuous_current",
    "motor": "temperature_sensor",
}
# Seats of a whole board, and how often each is filled; the other side of the board mostly alike.
FULL_BOARD = {
    **dict.fromkeys(("pack", "bms", "fuse", "switch", "main_lead", "pack_plug", "rail_plug", "controller", "box"), 1.0),
    **dict.fromkeys(
        ("pack_2", "bms_2", "fuse_2", "controller_2", "branch_lead", "branch_lead_2", "power_adapter"), 0.3
    ),
    **dict.fromkeys(("rear_left_motor", "rear_right_motor", "rear_left_drive_pulley", "rear_right_drive_pulley"), 1.0),
    **dict.fromkeys(("rear_left_belt", "rear_right_belt", "rear_left_driven_pulley", "rear_right_driven_pulley"), 1.0),
    **dict.fromkeys(("rear_left_wheel", "rear_right_wheel"), 1.0),
    **dict.fromkeys(("rear_left_key", "rear_left_bush", "rear_left_phase_lead", "rear_left_idler", "thermal_pad"), 0.2),
}
WANTED_KINDS = {name.partition(".")[0] for name in HELD_BY_SETTINGS}
# Which line decides about which of them.
DECIDED_BY: tuple[tuple[tuple[str, ...], tuple[str, ...]], ...] = (
    (("packs_in_parallel.share_of_the_charge", "braking_charge."), ("braking_charge",)),
    (("cutoff_stack.",), ("fade_start", "fade_end")),
    (("electrical_speed.",), ("rev_ceiling",)),
    (
        ("motor_current.", "phase_bullets.", "belt_pull.", "torque_lock.", "controller_heat.", "core_windows."),
        ("motor_current", "braking_motor_current"),
    ),
    (("",), ("pack_current",)),
)
SET_BY_LINE = {
    "pack_current": "pack_current_each",
    "braking_charge_limit": "braking_charge_each",
    "motor_current": "motor_current",
    "braking_motor_current": "braking_motor_current",
    "soft_cutoff_start": "fade_start",
    "soft_cutoff_end": "fade_end",
    "rev_ceiling": "rev_ceiling",
}


def set_to(sheet: SettingsSheet, seated: Mapping[str, Piece]) -> dict[str, Piece]:
    """The board with every controller set to its sheet; what the sheet does not tell is left unread."""
    done = dict(seated)
    left = sheet.channels
    for seat in ("controller", "controller_2"):
        if seat not in seated:
            continue
        part = seated[seat].part
        for attribute, line_id in SET_BY_LINE.items():
            told = min((line.printed for line in sheet.of(line_id) if line.printed is not None), default=None)
            unit = sheet.of(line_id)[0].unit if sheet.of(line_id) else ""
            part = with_readings(part, **{attribute: None if told is None else number(told, unit)})
        count = part.readings.get("channels")
        if isinstance(count, Count) and sheet.idle_channels:  # the rulebook counts leads, the sheet the motors behind
            used = min(count.nominal, left)
            left -= used
            if not used:
                del done[seat]
                continue
            part = with_readings(part, channels=Count((used,), used, SAID))
        done[seat] = Piece(seat, part)
    return done


def judged_as_set(
    pattern: Pattern, book: Book, rules: Rulebook, seated: Mapping[str, Piece]
) -> tuple[SettingsSheet, list[Finding]]:
    """The sheet of a board, and what the rules that settings can hold say of the board set to it."""
    sheet = settings(list(seated.values()), pattern, book)
    board = BoardJudge(pattern, book, rules, book.limits).judge(set_to(sheet, seated).values())
    findings = [finding for joint in board.joints for finding in joint.findings]
    return sheet, [finding for finding in findings if finding.rule.id.startswith(HELD_BY_SETTINGS)]


def sets_nothing(sheet: SettingsSheet) -> bool:
    """A belt that carries nothing, packs behind diodes: no setting mends that."""
    return any(line.printed == 0.0 for name in SET_BY_LINE.values() for line in sheet.of(name))


def of_wanted_kinds(pattern: Pattern) -> Pattern:
    return replace(pattern, lines=tuple(line for line in pattern.lines if line.kind in WANTED_KINDS))


def test_a_board_that_is_set_to_its_sheet_clashes_with_no_rule_that_settings_can_hold(sqlite_catalogue: Shelf) -> None:
    _, book, by_class = sqlite_catalogue
    chance, rules = random.Random(20261128), rulebook()
    held: Counter[str] = Counter()
    two_packs = two_controllers = 0
    for count in range(BOARDS):
        pattern = of_wanted_kinds(book.patterns[LAYOUTS[count % len(LAYOUTS)]])
        seated = random_board(chance, pattern, by_class, book.table, min(len(pattern.lines), 14))
        if "controller" not in seated or sets_nothing(settings(list(seated.values()), pattern, book)):
            continue
        two_packs += "pack_2" in seated
        two_controllers += "controller_2" in seated
        for finding in judged_as_set(pattern, book, rules, seated)[1]:
            held[finding.rule.id.partition(".")[0]] += finding.state == "holds"
            assert finding.state != "fails", (count, finding.joint, finding.rule.id, finding.value)
    assert two_packs > 30 and two_controllers > 30
    assert {kind for kind, times in held.items() if times} == WANTED_KINDS


def test_where_every_reading_was_taken_the_rules_hold_over_all_of_their_range(sqlite_catalogue: Shelf) -> None:
    _, book, by_class = sqlite_catalogue
    by_class = {
        own: [part for part in parts if own not in WELL_READ or part.offers(WELL_READ[own])[1] is not None]
        for own, parts in by_class.items()
    }
    chance, rules = random.Random(7), rulebook()
    pattern = of_wanted_kinds(book.patterns["two_wheel_belt"])
    certain: Counter[str] = Counter()
    for _ in range(BOARDS):
        seated: dict[str, Piece] = {}
        for seat in FULL_BOARD:
            if seat not in seated and chance.random() < FULL_BOARD[seat]:
                fill(chance, seated, seat, pattern, by_class, book.table)
        if sets_nothing(settings(list(seated.values()), pattern, book)):
            continue
        sheet, findings = judged_as_set(pattern, book, rules, seated)
        for finding in findings:
            needed = next(lines for prefixes, lines in DECIDED_BY if finding.rule.id.startswith(prefixes))
            if any(line.missing or line.printed is None for name in needed for line in sheet.of(name)):
                continue
            certain[finding.rule.id.partition(".")[0]] += 1
            assert finding.state in ("holds", "excused", "not_asked"), (finding.joint, finding.rule.id, finding.value)
    assert set(certain) == WANTED_KINDS, certain
