"""Every fault of a spoilt copy of the tables is named, with its file, row and column."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from fitdb.catalogue.seed import SeedBook, check_seed, load_seed, main
from fitdb.model.problems import Malformed
from fitdb.model.reading import Count, Designation, Number, Outline, Word

TINY = Path(__file__).parent / "tiny_seed"


def _change(file: str, old: str, new: str) -> Callable[[Path], None]:
    def spoil(directory: Path) -> None:
        path = directory / file
        text = path.read_text(encoding="utf-8")
        assert old in text, f"{file} has no {old!r}"
        path.write_text(text.replace(old, new, 1), encoding="utf-8")

    return spoil


def _append(file: str, row: str) -> Callable[[Path], None]:
    def spoil(directory: Path) -> None:
        with open(directory / file, "a", encoding="utf-8") as opened:
            opened.write(row + "\n")

    return spoil


def _bytes(file: str, content: bytes | None) -> Callable[[Path], None]:
    def spoil(directory: Path) -> None:
        if content is None:
            (directory / file).unlink()
        else:
            (directory / file).write_bytes(content)

    return spoil


PULLEY = "parts/driven_pulley.csv"
CORE = "interfaces/wheel_core.csv"
ATTRIBUTES = "attributes/all.csv"
ROLES = "patterns/line_roles.csv"
# (what is spoilt, the one fault that follows: code, file, row, column)
FAULTS = {
    "no source on a row": (_change(PULLEY, "16,invented_sheet", "16,"), "no_source", PULLEY, 2, "source"),
    "unknown source": (_change(PULLEY, "16,invented_sheet", "16,nobody"), "unknown_id", PULLEY, 2, "source"),
    "unknown heading": (_change(PULLEY, "face_width [mm]", "face_wdth [mm]"), "unknown_heading", PULLEY, 1,
                        "face_wdth [mm]"),
    "column missing": (_change("stock.csv", "class,attribute,values,source\nwheel,outer_diameter,90 97 83.5,workshop",
                               "class,attribute,source\nwheel,outer_diameter,workshop"),
                       "missing_column", "stock.csv", 1, "values"),
    "no unit in a heading": (_change(PULLEY, "face_width [mm]", "face_width"), "missing_unit", PULLEY, 1, "face_width"),
    "unit of something else": (_change(PULLEY, "face_width [mm]", "face_width [kg]"), "other_dimension", PULLEY, 1,
                               "face_width [kg]"),
    "unknown unit": (_change(PULLEY, "face_width [mm]", "face_width [furlong]"), "unknown_unit", PULLEY, 1,
                     "face_width [furlong]"),
    "bad number": (_change(PULLEY, ",16,", ",wide,"), "not_a_number", PULLEY, 2, "face_width [mm]"),
    "impossible number": (_change(PULLEY, ",16,", ",1600,"), "impossible_value", PULLEY, 2, "face_width [mm]"),
    "unknown word": (_change("parts/bearing.csv", "608,yes", "608,perhaps"), "unknown_word", "parts/bearing.csv", 2,
                     "shielded"),
    "unknown interface at a port": (_change(PULLEY, "lugs-six", "lugs-seven"), "unknown_id", PULLEY, 2, "port:lugs"),
    "interface of another kind": (_change(PULLEY, "lugs-six", "core-six"), "wrong_kind", PULLEY, 2, "port:lugs"),
    "port that the class lacks": (_change(PULLEY, "port:lugs", "port:teeth"), "unknown_heading", PULLEY, 1,
                                  "port:teeth"),
    "part named twice": (_append("parts/tyre_wheel.csv", "wheel-90,Again,,100,invented_sheet"), "duplicate_id",
                         "parts/wheel.csv", 2, "id"),
    "no title": (_change(PULLEY, "Thirty-six teeth", ""), "bad_cell", PULLEY, 2, "title"),
    "two interfaces that say the same": (_append(CORE, 'core-again,Again,6,9.0 +-0.1,plastic,'
                                                 '"ring: -4,16 4,16 4,24 -4,24 +-0.2",invented_sheet'),
                                         "same_signature", CORE, 5, "id"),
    "file of no kind": (_bytes("interfaces/whel_core.csv", b"id,title,source\n"), "unknown_id",
                        "interfaces/whel_core.csv", None, ""),
    "file of no class": (_bytes("parts/whel.csv", b"id,title,source\n"), "unknown_id", "parts/whel.csv", None, ""),
    "unquoted comma": (_append(PULLEY, "pulley-40,Forty, teeth,lugs-six,16,invented_sheet"), "too_many_cells", PULLEY,
                       3, ""),
    "heading twice": (_change(PULLEY, "title", "id"), "repeated_heading", PULLEY, 1, "id"),
    "file missing": (_bytes("remedies.csv", None), "missing_file", "remedies.csv", None, ""),
    "not UTF-8": (_bytes("limits.csv", b"key,value,source,why\nk,1,workshop,gr\xf6\xdfer\n"), "unreadable_file",
                  "limits.csv", None, ""),
    "unknown kind of source": (_append("sources.csv", "rumour,hearsay,A rumour,published"), "bad_cell", "sources.csv",
                               6, "kind"),
    "class like no class": (_change("part_classes/rolling.csv", "tyre,wheel,", "tyre,wheeel,"), "unknown_id",
                            "part_classes/rolling.csv", 3, "like"),
    "class like itself": (_change("part_classes/rolling.csv", "wheel,Wheel,,", "wheel,Wheel,tyre_wheel,"),
                          "circular_like", "part_classes/rolling.csv", 2, "like"),
    "class named in two files": (_append("part_classes/drive.csv", "wheel,Again,,no,workshop"), "duplicate_id",
                                 "part_classes/rolling.csv", 2, "id"),
    "port of no kind": (_change("class_ports.csv", "lugs,lug_ring,Lugs", "lugs,lug_rin,Lugs"), "unknown_id",
                        "class_ports.csv", 3, "kind"),
    "attribute of nothing": (_append(ATTRIBUTES, "whel,width,number,mm,Width,,,,,,,,,no,,hard_edge,,,workshop"),
                             "unknown_id", ATTRIBUTES, 13, "owner"),
    "attribute twice": (_append(ATTRIBUTES, "wheel,mass,number,kg,Mass,,,,,,,,,no,,,,,workshop"), "duplicate_id",
                        ATTRIBUTES, 13, "name"),
    "attribute in no unit": (_append(ATTRIBUTES, "wheel,w,number,mmm,W,,,,,,,,,no,,hard_edge,,,workshop"),
                             "unknown_unit", ATTRIBUTES, 13, "unit"),
    "half a range": (_append(ATTRIBUTES, "wheel,w,number,mm,W,1,,,,,,,,no,,hard_edge,,,workshop"), "half_a_range",
                     ATTRIBUTES, 13, "physical_low"),
    "range upside down": (_append(ATTRIBUTES, "wheel,w,number,mm,W,5,1,,,,,,,no,,hard_edge,,,workshop"),
                          "low_above_high", ATTRIBUTES, 13, "physical_low"),
    "plausible but impossible": (_append(ATTRIBUTES, "wheel,w,number,mm,W,1,5,2,9,,,,,no,,hard_edge,,,workshop"),
                                 "range_outside", ATTRIBUTES, 13, "plausible_low"),
    "word without words": (_append(ATTRIBUTES, "wheel,w,word,,W,,,,,,,,,no,,,,,workshop"), "no_vocabulary", ATTRIBUTES,
                           13, "vocabulary"),
    "default that is no word": (_append(ATTRIBUTES, "wheel,w,word,,W,,,,,c,,,a b,no,,,,,workshop"), "unknown_word",
                                ATTRIBUTES, 13, "default"),
    "default that is no number": (_append(ATTRIBUTES, "wheel,w,number,mm,W,,,,,big,,,,no,,hard_edge,,,workshop"),
                                  "bad_cell", ATTRIBUTES, 13, "default"),
    "unknown fit table": (_append(ATTRIBUTES, "wheel,w,designation,mm,W,,,,,,,,,no,iso_1,hard_edge,,,workshop"),
                          "unknown_id", ATTRIBUTES, 13, "fit"),
    "unknown spread family": (_append(ATTRIBUTES, "wheel,w,number,mm,W,,,,,,,,,no,,soft,,,workshop"), "unknown_id",
                              ATTRIBUTES, 13, "family"),
    "deviation with its sign": (_change("fits.csv", "2.5,10,0.008,0", "2.5,10,-0.008,0"), "low_above_high", "fits.csv",
                                2, "minus"),
    "role on no seat": (_change(ROLES, "wheel,wheel,single,core", "wheel,whel,single,core"), "unknown_id", ROLES, 2,
                        "seats"),
    "role at no port": (_change(ROLES, "wheel,wheel,single,core", "wheel,wheel,single,cor"), "unknown_id", ROLES, 2,
                        "port"),
    "role of no line": (_append(ROLES, "loose,nothing,wheel,wheel,single,core"), "unknown_id", ROLES, 5, "line"),
    "single role on two seats": (_append(ROLES, "loose,bite,x,wheel pulley,single,"), "several_seats", ROLES, 5,
                                 "seats"),
    "chain over no seat": (_change("patterns/lines.csv", "wheel lug_plate pulley", "wheel plate pulley"), "unknown_id",
                           "patterns/lines.csv", 2, "chain_seats"),
    "chain without seats": (_change("patterns/lines.csv", "wheel lug_plate pulley", ""), "bad_chain",
                            "patterns/lines.csv", 2, "chain_seats"),
    "over without constants": (_change("patterns/lines.csv", "end=1 end=-1", ""), "bad_constants",
                               "patterns/lines.csv", 3, "constants"),
    "constants that are none": (_change("patterns/lines.csv", "end=1 end=-1", "both ends"), "bad_cell",
                                "patterns/lines.csv", 3, "constants"),
    "seat of no class": (_append("patterns/seats.csv", "loose,deck,,1,deck,Deck,workshop"), "unknown_id",
                         "patterns/seats.csv", 5, "classes"),
    "remedy at no seat": (_change("remedies.csv", "alter,pulley", "alter,puley"), "unknown_id", "remedies.csv", 3,
                          "seat"),
    "remedy that moves nothing": (_change("remedies.csv", "lug_plate,lug_plate,,yes", "lug_plate,,,yes"), "no_stock",
                                  "remedies.csv", 2, "stock"),
    "remedy that alters nothing there": (_change("remedies.csv", ",lug_width,", ",lug_wdth,"), "unknown_id",
                                         "remedies.csv", 3, "attribute"),
    "stock of nothing": (_change("stock.csv", "outer_diameter", "outer"), "unknown_id", "stock.csv", 2, "attribute"),
    "limit that is no number": (_change("limits.csv", "0.15", "nan"), "bad_cell", "limits.csv", 2, "value"),
    "control character": (_change("limits.csv", "Printed", "Pri\x07nted"), "bad_cell", "limits.csv", 2, "why"),
    "title too long": (_change(PULLEY, "Thirty-six teeth", "x" * 241), "bad_cell", PULLEY, 2, "title"),
}  # fmt: skip


def test_the_tiny_tables_are_sound() -> None:
    assert check_seed(TINY) == ()


@pytest.mark.parametrize("name", FAULTS)
def test_a_fault_is_named_with_its_place(name: str, tiny_copy: Path) -> None:
    spoil, code, file, row, column = FAULTS[name]
    spoil(tiny_copy)
    found = [(one.code, one.file, one.row, one.column) for one in check_seed(tiny_copy)]
    assert (code, file, row, column) in found
    # The same fault may show in the rows that lean on the spoilt one, never in a flood.
    assert len(found) <= 3, found


def test_all_faults_are_listed_at_once(tiny_copy: Path) -> None:
    together = ["no source on a row", "bad number", "unknown word", "two interfaces that say the same", "half a range",
                "deviation with its sign", "role on no seat", "remedy at no seat", "limit that is no number",
                "unknown kind of source", "chain without seats", "file of no class"]  # fmt: skip
    for name in together:
        if name != "no source on a row":
            FAULTS[name][0](tiny_copy)
    _append(PULLEY, "pulley-40,Forty teeth,lugs-six,16,")(tiny_copy)
    found = {(one.code, one.file) for one in check_seed(tiny_copy)}
    assert {(FAULTS[name][1], FAULTS[name][2]) for name in together} <= found
    with pytest.raises(Malformed) as refused:
        load_seed(tiny_copy)
    assert len(refused.value.problems) == len(check_seed(tiny_copy)) >= 12


def test_the_two_interfaces_that_say_the_same_are_both_named(tiny_copy: Path) -> None:
    FAULTS["two interfaces that say the same"][0](tiny_copy)
    (fault,) = check_seed(tiny_copy)
    assert "core-again" in fault.message and "core-six" in fault.message


def test_the_command_prints_the_faults(tiny_copy: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main([str(tiny_copy)]) == 0
    FAULTS["bad number"][0](tiny_copy)
    assert main([str(tiny_copy)]) == 1
    assert "parts/driven_pulley.csv, row 2, column face_width [mm]: `wide`" in capsys.readouterr().out


def test_what_cells_mean(tiny: SeedBook) -> None:
    core, wheels = tiny.interfaces, tiny.parts
    width = core["core-six"].readings["window_width"]
    assert isinstance(width, Number) and (width.low, width.nominal, width.high) == pytest.approx((8.9, 9.0, 9.1))
    assert not width.spread_assumed
    assert core["core-five-or-six"].readings["window_width"].source.kind == "ruler"
    count = core["core-five-or-six"].readings["window_count"]
    assert isinstance(count, Count) and count.values == (5, 6)
    unread = core["core-unread"].readings
    assert isinstance(unread["window_count"], Count) and unread["window_count"].value_assumed
    assert isinstance(unread["core_material"], Word) and unread["core_material"].possible == {"plastic", "alloy"}
    assert "window_width" not in unread
    assert isinstance(core["core-six"].readings["windows_drawn"], Outline)
    lug = core["lugs-six"].readings["lug_width"]
    assert isinstance(lug, Number) and lug.nominal == pytest.approx(8.89) and lug.unit == "mm"  # 0.35 in of 25.4 mm
    assert lug.entered == "0.35 in" and lug.spread_assumed
    diameter = wheels["wheel-97"].readings["outer_diameter"]
    assert isinstance(diameter, Number) and (diameter.low, diameter.high) == pytest.approx((96.5, 98.0))
    bore = wheels["bearing-608"].readings["bore"]
    # ISO 492, normal class: the bore of a bearing over 2.5 to 10 mm deviates by 0 / -8 micrometres.
    assert isinstance(bore, Designation) and (bore.low, bore.high) == pytest.approx((7.992, 8.0))
    assert wheels["wheel-90"].ports["core"] is tiny.interfaces["core-six"]
    assert wheels["wheel-unread"].readings == {} and wheels["wheel-unread"].ports == {}
    assert tiny.table.ports_of("hub") == {"core": "wheel_core"} and "bore" in tiny.table.own_attributes("hub")
    assert tiny.patterns["loose"].lines[1].constants == ({"end": 1.0}, {"end": -1.0})
    assert tiny.stock == {("wheel", "outer_diameter"): (83.5, 90.0, 97.0)}
    assert tiny.limits == {"core_windows.lugs_enter.least": 0.15}
