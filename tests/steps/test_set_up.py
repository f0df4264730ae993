"""The settings sheet: worked by hand, where readings are missing, for two packs or controllers."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import pytest
from read_parts import SAID, number, with_readings

from fitdb.catalogue.read import Book
from fitdb.model.joint import Piece
from fitdb.model.part import Part
from fitdb.model.reading import Word
from fitdb.model.set_up import SettingsSheet
from fitdb.settings import settings

Shelf = tuple[Any, Book, dict[str, list[Part]]]


class Bench:
    """Boards from shipped parts, by id."""

    def __init__(self, shelf: Shelf) -> None:
        _, self.book, by_class = shelf
        self.parts = {part.id: part for parts in by_class.values() for part in parts}

    def board(self, layout: str, seats: Mapping[str, str | Part]) -> tuple[list[Piece], SettingsSheet]:
        pieces = [Piece(seat, self.parts[part] if isinstance(part, str) else part) for seat, part in seats.items()]
        return pieces, settings(pieces, self.book.patterns[layout], self.book)

    def sheet(self, layout: str, seats: Mapping[str, str | Part]) -> SettingsSheet:
        return self.board(layout, seats)[1]


@pytest.fixture(scope="module")
def bench(sqlite_catalogue: Shelf) -> Bench:
    return Bench(sqlite_catalogue)


RIVER = {
    "pack": "pack-10s3p-21700-power",
    "bms": "bms-10s-60-charge-20",
    "fuse": "fuse-bolt-40-80v-near",
    "switch": "switch-anti-spark-60v",
    "main_lead": "main-lead-10awg-open",
    "pack_plug": "connector-block-90-socket-metered",
    "rail_plug": "connector-block-90-plug-metered",
    "controller": "controller-double-60v-set-10s",
    "rear_left_motor": "motor-63x50-170",
    "rear_right_motor": "motor-63x50-170",
}


def test_the_fuse_of_the_river_board_sets_its_pack_current(bench: Bench) -> None:
    """40 A / 1.25 = 32 A, 16 A for each of two channels. The cells leave 3 · 25 A · 0.9 = 67.5 A, the BMS
    60 A · 0.9 = 54 A, the switch 60 A · 0.8 = 48 A, the blocks 90 A · 0.7 = 63 A, 5.26 mm² · 10 A/mm² = 52.6 A."""
    line = bench.sheet("two_wheel_belt", RIVER).line("pack_current")
    assert line.set_by is not None and line.set_by.id == "fuse"
    assert line.printed == 32.0 and not line.is_bound
    told = {link.id: link.value.nominal for link in line.others}
    assert told["cells"] == pytest.approx(67.5)
    assert told["bms"] == pytest.approx(54.0)
    assert told["switch"] == pytest.approx(48.0)
    assert told["plug"] == pytest.approx(63.0)
    assert told["main_lead"] == pytest.approx(52.6, abs=0.05)
    each = bench.sheet("two_wheel_belt", RIVER).line("pack_current_each")
    assert each.printed == 16.0
    assert [(one.value, one.beyond) for one in each.now] == [(15.0, False)]


def test_braking_charge_is_seven_tenths_of_what_the_cells_take_and_a_greater_setting_is_told(bench: Bench) -> None:
    """3 · 6 A · 0.7 = 12.6 A, over two channels 6.3 A, typed 6 A; 9 A are set for each."""
    sheet = bench.sheet("two_wheel_belt", RIVER)
    line = sheet.line("braking_charge_each")
    assert line.value is not None and line.value.nominal == pytest.approx(6.3)
    assert line.printed == 6.0
    assert line.set_by is not None and line.set_by.id == "cells"
    assert [(one.value, one.beyond) for one in line.now] == [(9.0, True)]
    assert sheet.line("braking_charge_cold").printed == 3.0


def test_volts_follow_the_cells_in_series(bench: Bench) -> None:
    """Ten nickel cells: 34 and 31 V going empty, 41.5 and 42.2 V braking. The BMS cuts at 28 V and 1 V is kept."""
    sheet = bench.sheet("two_wheel_belt", RIVER)
    printed = {
        name: sheet.line(name).printed for name in ("fade_start", "fade_end", "brake_fade_start", "brake_fade_end")
    }
    assert printed == {"fade_start": 34.0, "fade_end": 31.0, "brake_fade_start": 41.5, "brake_fade_end": 42.2}
    cut = next(link for link in sheet.line("fade_end").others if link.id == "bms_cut")
    assert cut.value.nominal == pytest.approx(29.0)


def test_a_bms_that_cuts_early_raises_the_end_of_the_fade_and_its_start(bench: Bench) -> None:
    """Cut at 3.2 V: (3.2 + 0.1) · 10 = 33 V, not 31 V, and the fade keeps 0.2 V per cell: 35 V, not 34 V."""
    bms = with_readings(bench.parts["bms-10s-60-charge-20"], cell_under_volts=number(3.2, "V"))
    sheet = bench.sheet("two_wheel_belt", {**RIVER, "bms": bms})
    end = sheet.line("fade_end")
    assert end.set_by is not None and end.set_by.id == "bms_cut"
    assert (end.printed, sheet.line("fade_start").printed) == (33.0, 35.0)
    assert any(one.beyond for one in end.now)
    assert any("the BMS cuts before power has faded out" in note for note in end.notes)


def test_a_pack_that_sags_to_the_cut_is_told(bench: Bench) -> None:
    """10/3 · 28 mΩ and links of up to 30 mΩ are 123 mΩ; 27 A sag 3.33 V, and 31 V stand only 3 V above 10 · 2.8 V."""
    sheet = bench.sheet("two_wheel_belt", {**RIVER, "pack": "pack-10s3p-21700-energy"})
    assert any("sags the pack by up to 3.33 V, more than the 3 V" in note for note in sheet.line("fade_end").notes)
    assert not any("sags the pack" in note for note in bench.sheet("two_wheel_belt", RIVER).line("fade_end").notes)


def test_phosphate_cells_have_their_own_volts(bench: Bench) -> None:
    """Twelve iron-phosphate cells: 12 · 3.0 = 36 V and 12 · 2.7 = 32.4 V; braking ends at 12 · 3.65 = 43.8 V."""
    seats = {**RIVER, "pack": "pack-12s2p-26650-phosphate"}
    seats.pop("bms")
    sheet = bench.sheet("two_wheel_belt", seats)
    assert (sheet.line("fade_start").printed, sheet.line("fade_end").printed) == (36.0, 32.4)
    assert sheet.line("brake_fade_end").printed == 43.8


def test_an_unread_chemistry_takes_the_careful_of_both_and_says_so(bench: Bench) -> None:
    """Power fades as for nickel (higher), braking charge as for iron-phosphate (lower)."""
    pack = with_readings(
        bench.parts["pack-10s3p-21700-power"], chemistry=Word(frozenset({"nickel", "phosphate"}), SAID)
    )
    sheet = bench.sheet("two_wheel_belt", {**RIVER, "pack": pack})
    assert sheet.line("fade_end").printed == 31.0
    assert sheet.line("brake_fade_end").printed == 36.5  # 10 · 3.65 V
    for line_id in ("fade_end", "brake_fade_end"):
        line = sheet.line(line_id)
        assert line.set_by is not None and line.set_by.assumed and "nobody said" in line.set_by.worked
        assert ("pack", "chemistry") in {(one.seat, one.attribute) for one in line.missing}


def test_a_lost_cell_sheet_leaves_a_bound_and_the_half_hour_habit_for_charging(bench: Bench) -> None:
    """12 Ah · 0.5/h · 0.7 = 4.2 A of braking charge; for the draw the fuse is a bound, and what is unread is named."""
    pack = with_readings(
        bench.parts["pack-10s3p-21700-power"],
        cell_continuous_current=None,
        cell_charge_current=None,
        continuous_current=None,
        charge_current=None,
    )
    sheet = bench.sheet("two_wheel_belt", {**RIVER, "pack": pack})
    draw = sheet.line("pack_current")
    assert draw.is_bound and draw.printed == 32.0
    assert [(one.seat, one.attribute) for one in draw.missing] == [("pack", "cell_continuous_current")]
    charge = sheet.line("braking_charge")
    assert charge.value is not None and charge.value.nominal == pytest.approx(4.2)
    assert charge.set_by is not None and charge.set_by.assumed and charge.is_bound


def test_what_is_not_named_is_missing_and_never_taken_for_absent(bench: Bench) -> None:
    seats = {seat: RIVER[seat] for seat in ("pack", "controller", "rear_left_motor", "rear_right_motor")}
    line = bench.sheet("two_wheel_belt", seats).line("pack_current")
    assert {one.seat for one in line.missing} >= {"bms", "fuse", "switch", "main_lead", "pack_plug", "rail_plug"}
    assert line.is_bound and line.printed is not None


def test_a_port_layout_that_nobody_looked_at_counts_as_the_weaker_way(bench: Bench) -> None:
    """Charge path 5 A, discharge path 60 A: 5 · 0.9 = 4.5 A."""
    bms = with_readings(
        bench.parts["bms-10s-60-charge-20"],
        charge_current=number(5.0, "A"),
        port_layout=Word(frozenset({"common_port", "separate_ports"}), SAID),
    )
    line = bench.sheet("two_wheel_belt", {**RIVER, "bms": bms}).line("braking_charge")
    assert line.value is not None and line.value.nominal == pytest.approx(4.5)
    assert line.set_by is not None and line.set_by.id == "bms_charge" and line.is_bound


def test_two_packs_share_by_their_resistances_and_a_pack_beside_diodes_takes_all_of_the_charge(bench: Bench) -> None:
    """12S3P and 12S2P of 20 mΩ cells with 15 mΩ of links: R = 12/3·20 + 15 = 95 and 12/2·20 + 15 = 135 mΩ. The first
    carries 135/230 = 0.587 of the whole: 0.9 · 3 · 20 A / 0.587 = 92.0 A; the second 0.9 · 2 · 20 / 0.413 = 87.2 A."""
    strong, weak = (
        with_readings(
            bench.parts[own], link_resistance=number(15.0, "mohm"), continuous_current=None, charge_current=None
        )
        for own in ("pack-12s3p-21700-rested", "pack-12s2p-21700-rested")
    )
    seats: dict[str, str | Part] = {**RIVER, "pack": strong, "pack_2": weak}
    line = bench.sheet("two_wheel_belt", seats).line("pack_current")
    cells = {link.seat: link.value.nominal for link in (line.set_by, *line.others) if link and link.id == "cells"}
    assert cells["pack"] == pytest.approx(92.0, abs=0.1)
    assert cells["pack_2"] == pytest.approx(87.2, abs=0.1)
    charge = bench.sheet("two_wheel_belt", seats).line("braking_charge")
    # 0.7 · 3 · 4 A / 0.587 = 14.3 A and 0.7 · 2 · 4 A / 0.413 = 13.6 A
    assert charge.value is not None and charge.value.nominal == pytest.approx(13.56, abs=0.05)
    behind = {**seats, "pack_2": with_readings(weak, coupling=Word(frozenset({"diodes"}), SAID))}
    alone = bench.sheet("two_wheel_belt", behind).line("braking_charge")
    assert alone.value is not None and alone.value.nominal == pytest.approx(8.4)  # 0.7 · 3 · 4 A, all of it


def test_packs_behind_diodes_take_no_charge_at_all(bench: Bench) -> None:
    pack = with_readings(bench.parts["pack-10s3p-21700-power"], coupling=Word(frozenset({"diodes"}), SAID))
    line = bench.sheet("two_wheel_belt", {**RIVER, "pack": pack}).line("braking_charge")
    assert line.printed == 0.0 and line.set_by is not None and line.set_by.id == "diodes"


def test_two_controllers_and_one_of_two_channels_come_to_the_same(bench: Bench) -> None:
    one = bench.sheet("two_wheel_belt", {**RIVER, "controller": "controller-double-75v-60"})
    two = bench.sheet(
        "two_wheel_belt",
        {**RIVER, "controller": "controller-single-75v-80", "controller_2": "controller-single-75v-80"},
    )
    assert one.channels == two.channels == 2
    assert one.line("pack_current_each").printed == two.line("pack_current_each").printed == 16.0
    now = two.line("pack_current").now
    assert [(entry.seats, entry.value) for entry in now] == [(("controller", "controller_2"), 100.0)]


def test_a_channel_that_drives_no_motor_does_not_count_and_that_is_said(bench: Bench) -> None:
    seats = {seat: part for seat, part in RIVER.items() if seat != "rear_right_motor"}
    sheet = bench.sheet("single_belt", seats)
    assert (sheet.channels, sheet.idle_channels) == (1, 1)
    assert sheet.line("pack_current_each").printed == 32.0
    assert "drive no motor" in sheet.notes[0]
    with pytest.raises(KeyError):
        sheet.line("directions")


def test_the_lead_to_one_controller_bounds_all_of_them_by_its_share(bench: Bench) -> None:
    """12 AWG is 3.309 mm², 33.09 A in open air for one of two channels: 66.2 A for both, told beside the others."""
    seats = {
        **RIVER,
        "controller": "controller-single-60v-60",
        "controller_2": "controller-single-60v-60",
        "branch_lead": "branch-lead-12awg-open",
    }
    line = bench.sheet("two_wheel_belt", seats).line("pack_current")
    branch = next(link for link in line.others if link.id == "branch_lead")
    assert branch.value.nominal == pytest.approx(66.2, abs=0.05)


def test_the_belt_sets_the_motor_current_where_it_is_the_weakest(bench: Bench) -> None:
    """15 and 36 teeth of 5 mm: d = 23.873, D = 57.296 mm. Taut at 66.64 mm the wrap is 180 − 2·asin(33.42/133.29) =
    151°, 15·151/360 = 6.3: six whole teeth, no reduction. The narrowest that a 9 mm belt may be is 8.2 mm: 8.2·30/1.5 =
    164 N with the reserve of 1.5. At the lowest speed constant, 0.95·170 = 161.5 rpm/V, K_t = 9.5493/161.5 = 0.059129
    N m/A: 164 · 0.023873/2 / 0.059129 = 33.11 A."""
    seats: dict[str, str | Part] = {**RIVER}
    for side in ("rear_left", "rear_right"):
        seats |= {
            f"{side}_belt": "belt-5mm-265-9",
            f"{side}_drive_pulley": "drive-pulley-5mm-15-hub-out",
            f"{side}_driven_pulley": "driven-36-six-lug",
        }
    line = bench.sheet("two_wheel_belt", seats).line("motor_current")
    assert line.set_by is not None and line.set_by.id == "belt" and "6 teeth in mesh" in line.set_by.worked
    assert line.value is not None and line.value.low == pytest.approx(33.11, abs=0.02)
    assert line.printed == 33.0
    assert sheet_value(bench.sheet("two_wheel_belt", seats), "first_motor_current") == 13.0  # 0.4 · 33 A = 13.2 A
    assert sheet_value(bench.sheet("two_wheel_belt", seats), "braking_motor_current") == 33.0


def sheet_value(sheet: SettingsSheet, line_id: str) -> float | None:
    return sheet.line(line_id).printed


def test_hub_motors_and_gear_drives_have_no_belt_and_still_a_sheet(bench: Bench) -> None:
    """45 A claimed for seconds · 0.7 = 31.5 A."""
    power = {seat: part for seat, part in RIVER.items() if "motor" not in seat}
    hub = {f"rear_{side}_hub_motor": "hub-motor-90-16" for side in ("left", "right")}
    line = bench.sheet("hub_motors", {**power, **hub}).line("motor_current")
    assert line.set_by is not None and line.set_by.id == "motor" and line.printed == 31.0
    gears = {f"rear_{side}_gear_drive": "gear-drive-3-0-round" for side in ("left", "right")}
    geared = bench.sheet("gear_drive", {**RIVER, **gears}).line("motor_current")
    assert geared.set_by is not None and geared.set_by.id == "motor" and geared.printed == 56.0  # 80 A · 0.7


def test_unlike_motors_have_lines_of_their_own(bench: Bench) -> None:
    seats = {**RIVER} | {f"front_{side}_hub_motor": "hub-motor-90-16" for side in ("left", "right")}
    lines = bench.sheet("belt_with_hub_front", seats).of("motor_current")
    assert {line.seats: line.printed for line in lines} == {
        ("rear_left_motor", "rear_right_motor"): 56.0,
        ("front_left_hub_motor", "front_right_hub_motor"): 31.0,
    }
    assert all(any("Motors differ" in note for note in line.notes) for line in lines)


def test_sensors_are_set_by_what_was_read_and_never_by_a_default(bench: Bench) -> None:
    motor = bench.parts["motor-63x50-170"]
    blind = with_readings(motor, temperature_sensor=None, position_sensor=None)
    read = bench.sheet("two_wheel_belt", RIVER)
    assert (read.line("temperature_sensor").word, read.line("position_sensor").word) == ("ntc_10k", "with_sensors")
    unread = bench.sheet("two_wheel_belt", {**RIVER, "rear_left_motor": blind, "rear_right_motor": blind})
    for name in ("temperature_sensor", "position_sensor"):
        line = unread.line(name)
        assert not line.word and line.task and {one.attribute for one in line.missing} == {name}
    mixed = bench.sheet("two_wheel_belt", {**RIVER, "rear_left_motor": blind})
    assert len(mixed.of("temperature_sensor")) == 2


def test_the_rev_ceiling_is_nine_tenths_of_the_limit_and_missing_where_nobody_read_it(bench: Bench) -> None:
    assert bench.sheet("two_wheel_belt", RIVER).line("rev_ceiling").printed == 90000.0
    unread = bench.sheet("two_wheel_belt", {**RIVER, "controller": "controller-double-100v-80"}).line("rev_ceiling")
    assert unread.printed is None and unread.is_bound
    assert [one.attribute for one in unread.missing] == ["electrical_speed_limit"]


def test_the_speed_ceiling_is_the_wish_or_the_riders_own_to_choose(bench: Bench) -> None:
    assert bench.sheet("two_wheel_belt", {**RIVER, "wish": "wish-town"}).line("speed_ceiling").printed == 25.0
    free = bench.sheet("two_wheel_belt", RIVER).line("speed_ceiling")
    assert free.printed is None and free.task.startswith("Yours to choose")


def test_an_uncertain_rating_is_typed_at_its_careful_end(bench: Bench) -> None:
    """50 ± 5 A of fuse: 36 to 44 A, typed 36 A."""
    fuse = with_readings(bench.parts["fuse-bolt-50-80v-near"], rated_current=number(50.0, "A", 5.0))
    line = bench.sheet("two_wheel_belt", {**RIVER, "fuse": fuse}).line("pack_current")
    assert line.value is not None and (line.value.low, line.value.nominal) == (36.0, 40.0)
    assert line.printed == 36.0


def test_a_board_of_nothing_has_a_sheet_that_sets_nothing(bench: Bench) -> None:
    sheet = bench.sheet("two_wheel_belt", {})
    assert sheet.channels == 0 and all(line.printed is None for line in sheet.lines if line.unit == "A")
    assert "nothing can be set" in sheet.notes[0]
