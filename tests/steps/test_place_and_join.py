"""Parts find their seats, lines find their joints, and what is ambiguous is said."""

from __future__ import annotations

import pytest

from fitdb.model.joint import Piece
from fitdb.model.part import AttributeTable, Part, PartClass
from fitdb.model.pattern import Line, LineRole, Pattern, Seat
from fitdb.model.problems import Malformed
from fitdb.model.source import Source
from fitdb.steps.join import join
from fitdb.steps.place import place

OWN = Source("own", "caliper", "own reading", "own reading")


def part_class(name: str, *like: str) -> PartClass:
    return PartClass(name, name, like, False, {}, OWN)


TABLE = AttributeTable(
    {
        name: part_class(name, *like)
        for name, like in {
            "wheel": (),
            "tyre_wheel": ("wheel",),
            "pulley": (),
            "plate": (),
            "motor": (),
            "screw": (),
            "base": (),
            "hanger": (),
            "truck": ("base", "hanger"),
        }.items()
    },
    {},
    {},
    {},
    {},
)


def part(name: str, its_class: str) -> Part:
    return Part(name, its_class, name, {}, {}, OWN)


def seat(name: str, *classes: str, row: str = "", order: int = 0) -> Seat:
    return Seat(name, row or name, order, classes, name)


SEATS = {
    one.id: one
    for one in (
        seat("wheel", "wheel"),
        seat("pulley", "pulley"),
        seat("plate", "plate"),
        seat("motor", "motor", row="motor", order=1),
        seat("other_motor", "motor", row="motor", order=2),
        seat("deck_screw", "screw"),
        seat("box_screw", "screw"),
        seat("base", "base"),
        seat("hanger", "hanger"),
        seat("truck", "truck"),
    )
}
CORE = Line(
    "core",
    "core",
    "J15",
    "core",
    (LineRole("pulley", ("pulley",), "single", "lugs"), LineRole("wheel", ("wheel",), "single", "core")),
    "chain",
    ("pulley", "plate", "wheel"),
)
GAP = Line(
    "gap",
    "gap",
    "J31",
    "gap",
    (
        LineRole("motor", ("motor",), "single", ""),
        LineRole("other_motor", ("other_motor",), "single", ""),
        LineRole("stack", ("plate", "wheel"), "list", ""),
    ),
)
PATTERN = Pattern("loose", "loose", SEATS, (CORE, GAP))


def placed(*named: tuple[str, Part]) -> dict[str, str]:
    return {piece.seat: piece.part.id for piece in place(named, PATTERN, TABLE)}


def test_a_part_goes_to_the_seat_that_takes_its_class_or_one_it_is_like() -> None:
    assert placed(("", part("w", "tyre_wheel"))) == {"wheel": "w"}


def test_a_nearer_class_wins() -> None:
    assert placed(("", part("t", "truck"))) == {"truck": "t"}


def test_seats_of_one_row_fill_in_order() -> None:
    assert placed(("", part("a", "motor")), ("", part("b", "motor"))) == {"motor": "a", "other_motor": "b"}


def test_several_possible_roles_are_listed() -> None:
    with pytest.raises(Malformed) as refused:
        placed(("", part("s", "screw")))
    assert refused.value.problems[0].code == "which_role"
    assert "box_screw" in refused.value.problems[0].hint and "deck_screw" in refused.value.problems[0].hint
    assert placed(("box_screw", part("s", "screw"))) == {"box_screw": "s"}


def test_every_fault_is_told_at_once() -> None:
    with pytest.raises(Malformed) as refused:
        placed(("wheel", part("p", "pulley")), ("nowhere", part("w", "wheel")), ("", part("s", "screw")))
    assert [problem.code for problem in refused.value.problems] == ["wrong_class", "unknown_role", "which_role"]


def test_a_full_row_is_refused() -> None:
    with pytest.raises(Malformed) as refused:
        placed(*[("", part(name, "motor")) for name in "abc"])
    assert refused.value.problems[0].code == "seat_taken"


def pieces(**seated: str) -> tuple[Piece, ...]:
    return tuple(Piece(seat, part(name, name)) for seat, name in seated.items())


def test_a_chain_makes_one_joint_per_neighbouring_pair() -> None:
    joints, _ = join(pieces(pulley="p", wheel="w"), PATTERN)
    assert [joint.id for joint in joints] == ["core"]
    joints, _ = join(pieces(pulley="p", plate="a", wheel="w"), PATTERN)
    assert [joint.id for joint in joints] == ["core@pulley-plate", "core@plate-wheel"]
    assert [piece.part.id for piece in joints[1].pieces["pulley"]] == ["a"], "the adapter plays the pulley's part"


def test_a_line_with_an_empty_single_role_is_not_asked_and_says_what_it_wants() -> None:
    joints, not_asked = join(pieces(wheel="w", motor="m"), PATTERN)
    assert joints == ()
    assert {(item.line.id, item.wanted[0][0]) for item in not_asked} == {("core", "pulley"), ("gap", "other_motor")}


def test_a_line_that_has_nothing_to_do_with_the_parts_is_left_out() -> None:
    _, not_asked = join(pieces(pulley="p"), PATTERN)
    assert [item.line.id for item in not_asked] == ["core"]


def test_a_list_role_may_be_empty_and_keeps_its_order() -> None:
    joints, _ = join(pieces(motor="m", other_motor="n"), PATTERN)
    assert joints[0].pieces["stack"] == ()
    joints, _ = join(pieces(motor="m", other_motor="n", wheel="w", plate="a"), PATTERN)
    gap = next(joint for joint in joints if joint.id == "gap")
    assert [piece.part.id for piece in gap.pieces["stack"]] == ["a", "w"]


def test_a_piece_filled_in_by_default_opens_no_joint() -> None:
    filled = tuple(Piece(one.seat, one.part, by_default=True) for one in pieces(pulley="p", wheel="w"))
    assert join(filled, PATTERN)[0] == ()
