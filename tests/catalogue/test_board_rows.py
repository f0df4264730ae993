"""The template rows of a whole board say all that the rows for parts on a table say, and name only what exists.

Here the files are read as plain tables and spread by hand, not by the code that reads them for the catalogue.
"""

from __future__ import annotations

import csv
import re
from collections import Counter, defaultdict
from collections.abc import Iterator
from pathlib import Path

import pytest

PATTERNS = Path(__file__).parents[2] / "seed_parts" / "patterns"
LAST_JOINT = 49  # the joints of deck, axle, drive and box; later ones have roles of their own on a board

ENDS, SIDES, BOXES = ("front", "rear"), ("left", "right"), ("box", "second_box")
SPREAD: dict[str, tuple[dict[str, str], ...]] = {
    "": ({},),
    "end": tuple({"end": end} for end in ENDS),
    "side": tuple({"side": side} for side in SIDES),
    "place": tuple({"place": f"{end}_{side}", "end": end, "side": side} for end in ENDS for side in SIDES),
    "box": tuple({"box": box} for box in BOXES),
}
WHERE = re.compile(r"^(?:second_box_|box_|pocket_|front_|rear_|left_|right_)+")

# Where a line of the board differs from the lines for loose parts, and why: by (line, role).
OTHER_PORT = {
    ("second_box_holes", "deck_side"): "a second box has inserts of its own",
    ("second_box_holes", "deck"): "a second box has inserts of its own",
    ("second_box_insert_screws", "deck"): "a second box has inserts of its own",
}
BETWEEN_BOXES = {"main_lead"}  # inside the one box of a board; with two it passes the exit of both
OTHER_SEATS = {
    ("second_box_contents", "body"): "the pack lies in the first box",
    ("second_box_contents", "content"): "the pack lies in the first box",
    ("motor_lead_length", "lead"): "phase and sensor leads have seats of their own",
    ("axis_angles_at_speed_belt", "motor"): "the other motor is that of another place",
    ("axis_angles_at_speed_gear", "motor"): "the other motor is that of another place",
}
# Kinds whose lines are not one line for several places: each is held against the loose line of its own name.
LINE_BY_LINE = {
    "ring_on_axle": "a line for each kind of spacer or ring",
    "axis_angles_at_speed": "a line for each kind of drive",
}


def _rows(kind: str) -> list[dict[str, str]]:
    files = [PATTERNS / f"{kind}.csv", *sorted(PATTERNS.glob(f"*_{kind}.csv"))]
    found = []
    for file in files:
        if kind == "lines" and file.name.endswith("_line_roles.csv"):
            continue
        if file.exists():
            with open(file, encoding="utf-8", newline="") as opened:
                found += [{"per": "", "group": "", **row} for row in csv.DictReader(opened)]
    return found


SEATS, LINES, ROLES = _rows("seats"), _rows("lines"), _rows("line_roles")
LAYOUTS = _rows("patterns")
LAYOUT_IDS = {row["id"] for row in LAYOUTS}
BOARD = {"board"} | LAYOUT_IDS


def _spread(text: str, per: str) -> Iterator[str]:
    for values in SPREAD[per]:
        yield text.format(**values)


def _number(joint: str) -> int:
    found = re.match(r"J(\d+)", joint)
    assert found, joint
    return int(found.group(1))


def _roles_of(pattern: str, line: str) -> dict[str, dict[str, str]]:
    return {row["role"]: row for row in ROLES if (row["pattern"], row["line"]) == (pattern, line)}


def _worn(seat: str) -> str:
    """`{place}_wheel` and `rear_left_wheel` are both a `wheel`; a box is what loose parts call an enclosure."""
    plain = re.sub(r"\{\w+\}_", "", seat)
    return "enclosure" if plain in ("box", "second_box", "pocket") else WHERE.sub("", plain)


def _in_order(cell: str) -> list[str]:
    return list(dict.fromkeys(_worn(seat) for seat in cell.split()))


EARLY_LOOSE = [row for row in LINES if row["pattern"] == "loose" and _number(row["joint"]) <= LAST_JOINT]
EARLY_BOARD = [row for row in LINES if row["pattern"] == "board" and _number(row["joint"]) <= LAST_JOINT]
LOOSE_ROLES: dict[str, dict[str, list[dict[str, str]]]] = defaultdict(lambda: defaultdict(list))  # by kind, then role
for _line in EARLY_LOOSE:
    for _role, _row in _roles_of("loose", _line["line"]).items():
        LOOSE_ROLES[_line["kind"]][_role].append(_row)


def _wanted(line: dict[str, str]) -> dict[str, list[dict[str, str]]]:
    """By role, the loose rows that a line of the board is held against."""
    if line["kind"] in LINE_BY_LINE:
        return {role: [row] for role, row in _roles_of("loose", line["line"]).items()}
    return LOOSE_ROLES[line["kind"]]


BOARD_SEATS = [row for row in SEATS if row["pattern"] == "board"]
SEAT_IDS = Counter(own for row in BOARD_SEATS for own in _spread(row["seat"], row["per"]))


def test_there_are_rows() -> None:
    assert len(EARLY_LOOSE) > 40 and len(EARLY_BOARD) > 40 and len(BOARD_SEATS) > 60 and len(LAYOUTS) > 5


def test_every_kind_of_joint_of_loose_parts_occurs_on_a_board() -> None:
    loose = {(row["kind"], row["joint"]) for row in EARLY_LOOSE}
    assert loose == {(row["kind"], row["joint"]) for row in EARLY_BOARD}


@pytest.mark.parametrize("line", EARLY_BOARD, ids=lambda row: row["line"])
def test_roles_are_those_of_the_loose_line(line: dict[str, str]) -> None:
    here, faults = _roles_of("board", line["line"]), []
    wanted = _wanted(line)
    assert set(here) == set(wanted)
    assert line["expansion"] in {row["expansion"] for row in EARLY_LOOSE if row["kind"] == line["kind"]}
    for name, row in here.items():
        if row["how"] not in {one["how"] for one in wanted[name]}:
            faults.append(f"{name}: how {row['how']}")
        same_port = row["port"] in {one["port"] for one in wanted[name]}
        if same_port == ((line["line"], name) in OTHER_PORT):
            faults.append(f"{name}: port {row['port']}")
    assert not faults


@pytest.mark.parametrize("line", EARLY_BOARD, ids=lambda row: row["line"])
def test_lists_hold_what_the_loose_lists_hold_in_their_order(line: dict[str, str]) -> None:
    for name, row in _roles_of("board", line["line"]).items():
        if row["how"] == "list":
            fullest = max((_in_order(one["seats"]) for one in _wanted(line)[name]), key=len)
            here = [seat for seat in _in_order(row["seats"]) if seat in fullest]
            assert (here == fullest) != ((line["line"], name) in OTHER_SEATS), name


def test_the_first_roles_of_a_chain_stay_first() -> None:
    """A chain fills its first two roles with neighbours: their order is part of the meaning."""
    first_two = defaultdict(set)
    for line in EARLY_LOOSE:
        if line["expansion"] == "chain":
            first_two[line["kind"]].add(tuple(_roles_of("loose", line["line"]))[:2])
    for line in EARLY_BOARD:
        if line["expansion"] == "chain":
            assert tuple(_roles_of("board", line["line"]))[:2] in first_two[line["kind"]], line["line"]


def test_first_role_of_an_each_line_is_a_list() -> None:
    for line in (row for row in LINES if row["pattern"] in BOARD and row["expansion"] == "each"):
        roles = _roles_of(line["pattern"], line["line"])
        assert next(iter(roles.values()))["how"] == "list", line["line"]


def test_over_counts_over_what_the_loose_lines_count() -> None:
    for kind in {row["kind"] for row in EARLY_LOOSE if row["expansion"] == "over"}:
        loose = {row["constants"] for row in EARLY_LOOSE if row["kind"] == kind}
        assert loose == {row["constants"] for row in EARLY_BOARD if row["kind"] == kind}


def test_the_end_that_a_box_line_counts_is_the_end_whose_seats_it_names() -> None:
    for line in (row for row in EARLY_BOARD if row["kind"] == "box_sweep"):
        word = {"end=1": "rear_", "end=-1": "front_"}[line["constants"]]
        for name, row in _roles_of("board", line["line"]).items():
            if name not in ("enclosure", "deck"):
                assert all(seat.startswith(word) for seat in row["seats"].split()), (line["line"], name)


def test_every_seat_that_is_named_exists() -> None:
    per = {(row["pattern"], row["line"]): row["per"] for row in LINES}
    lacking = []
    for row in ROLES:
        if row["pattern"] in BOARD:
            for seat in _spread(row["seats"], per[row["pattern"], row["line"]]):
                lacking += [(row["line"], one) for one in seat.split() if one.removeprefix("before:") not in SEAT_IDS]
    for row in LINES:
        if row["pattern"] in BOARD:
            for chain in _spread(row["chain_seats"], row["per"]):
                lacking += [(row["line"], one) for one in chain.split() if one not in SEAT_IDS]
    assert not lacking


def test_no_seat_line_or_role_is_named_twice() -> None:
    assert not [seat for seat, times in SEAT_IDS.items() if times > 1]
    lines = Counter((row["pattern"], row["line"]) for row in LINES)
    roles = Counter((row["pattern"], row["line"], row["role"]) for row in ROLES)
    assert not [one for one, times in (lines | roles).items() if times > 1]


def test_layouts_name_groups_and_places_that_exist() -> None:
    of_group = defaultdict(set)
    for row in BOARD_SEATS:
        assert row["group"], row["seat"]
        for group in row["group"].split():
            of_group[group].add(row["per"])
    named = set()
    for layout in LAYOUTS:
        assert layout["lines_of"] == "board", layout["id"]
        for entry in layout["groups"].split():
            group, _, values = entry.partition("@")
            named.add(group)
            assert group in of_group, (layout["id"], group)
            known = {values[per] for per in of_group[group] - {""} for values in SPREAD[per]}
            assert set(values.split(",")) - {""} <= known, (layout["id"], entry)
    assert named == set(of_group), "a group of seats that no layout has"


def test_a_layout_replaces_a_line_by_one_of_the_same_kind() -> None:
    of_board = {row["line"]: row for row in LINES if row["pattern"] == "board"}
    own = [row for row in LINES if row["pattern"] in LAYOUT_IDS]
    for row in own:
        line = of_board[row["line"]]
        assert (row["kind"], row["per"], row["expansion"]) == (line["kind"], line["per"], line["expansion"])
        whole = _roles_of("board", row["line"])
        for name, role in _roles_of(row["pattern"], row["line"]).items():
            assert (role["how"], role["port"]) == (whole[name]["how"], whole[name]["port"]), (row["line"], name)
            more = set(role["seats"].split()) - set(whole[name]["seats"].split())
            assert more <= BETWEEN_BOXES, (row["line"], name)


def test_what_lies_in_two_boxes_lies_in_one_of_them() -> None:
    """Nothing is packed into both boxes of a board, and nothing that fits one box is forgotten with two."""
    pack_box = set(_roles_of("two_wheel_belt_two_boxes", "box_contents")["content"]["seats"].split())
    second = set(_roles_of("board", "second_box_contents")["content"]["seats"].split())
    one_box = set(_roles_of("board", "box_contents")["content"]["seats"].split())
    for pattern in BOARD:
        for row in (one for one in LINES if one["pattern"] == pattern and one["kind"] == "box_contents"):
            roles = _roles_of(pattern, row["line"])
            assert roles["body"]["seats"] == roles["content"]["seats"], row["line"]  # each alone, then all together
    assert not pack_box & second
    assert pack_box | second == one_box
