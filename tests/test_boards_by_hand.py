"""Small boards made up for one point each: pins in plates on two sides, judged, remembered and mended.

A pin stands in a plate when both have the same size (`p`), and is alike in colour when both have the same `q`.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping
from typing import Any

from fitdb.board import BoardJudge
from fitdb.catalogue.read import Book
from fitdb.model.joint import Piece
from fitdb.model.part import Attribute, AttributeTable, Part, PartClass
from fitdb.model.pattern import Line, LineRole, Pattern, Seat
from fitdb.model.plan import SwapPlan
from fitdb.model.reading import Number
from fitdb.model.remedy import Remedy
from fitdb.model.rule import Between, Bound, Rule, Rulebook, Severity
from fitdb.model.source import Source
from fitdb.steps.mend import Mended, mend
from fitdb.workshop import BoardWorkshop

OWN = Source("own", "caliper", "own reading", "own reading")
PRACTICE = "common practice, no source"
LIKE = {"pin": (), "long_pin": ("pin",), "short_pin": ("pin",), "plate": (), "washer": ()}
SIDES = ("rear_left", "rear_right")


def attribute(owner: str, name: str) -> Attribute:
    return Attribute(
        owner, name, "number", "mm", name, (0, 100), None, None, (0, 0), (), False, "", "hard_edge", "caliper", "", OWN
    )


TABLE = AttributeTable(
    {name: PartClass(name, name, like, False, {}, OWN) for name, like in LIKE.items()},
    {},
    {(owner, name): attribute(owner, name) for owner in ("pin", "plate", "washer") for name in ("p", "q")},
    {},
    {"own": OWN},
)


def alike(name: str) -> Rule:
    bounds = (Bound(f"{name}.least", 0.0, PRACTICE), Bound(f"{name}.most", 0.0, PRACTICE))
    return Rule(
        "Are they alike?", (f"pin.{name}", f"plate.{name}"), lambda a, b: a - b, "gap", "a − b", "mm", Between(*bounds),
        Severity.DAMAGE, id=f"pair_{name}.alike", kind=f"pair_{name}",
    )  # fmt: skip


def larger(a: float, b: float) -> float:
    return max(a, b)


BOTH = Rule(
    "Is neither too large?", ("pin.p", "other_pin.p"), larger, "the larger", "max(a, b)", "mm",
    Between(Bound("both.least", 0.0, PRACTICE), Bound("both.most", 50.0, PRACTICE)), Severity.DAMAGE,
    id="both.are_small", kind="both",
)  # fmt: skip
RULES = {rule.id: rule for rule in (alike("p"), alike("q"), BOTH)}
RULEBOOK = Rulebook(RULES, {}, {}, "stamp", {rule.kind: (rule,) for rule in RULES.values()})


def seat(own: str, *classes: str) -> Seat:
    name = own.removeprefix("rear_left_").removeprefix("rear_right_")
    return Seat(own, own, 0, classes, own, tuple(dict.fromkeys((name, own))))


def pair(kind: str, *sides: str, expansion: str = "") -> Line:
    pins, plates = tuple(f"{side}_pin" for side in sides), tuple(f"{side}_plate" for side in sides)
    roles = (LineRole("pin", pins, "single", ""), LineRole("plate", plates, "single", ""))
    return Line(f"{kind}@{'_'.join(sides)}", kind, "J0", kind, roles, expansion)


def pattern_of(*lines: Line) -> Pattern:
    seats = [seat(f"{side}_{name}", name) for side in SIDES for name in ("pin", "plate", "washer")]
    return Pattern("made_up", "made up", {one.id: one for one in seats}, lines)


def part(own: str, part_class: str, **sizes: float) -> Part:
    return Part(
        own, part_class, own, {name: Number(size, size, size, "mm", OWN) for name, size in sizes.items()}, {}, OWN
    )


def remedy(own: str, move: str, together: str, minutes: float = 10.0, **more: Any) -> Remedy:
    given = {"seat": "pin", "stock": "", "attribute": "", **more}
    return Remedy(
        own, own, move, reversible=True, gives_up="", minutes=minutes, money=0.0, source="", together=together, **given
    )


def book_of(
    remedies: tuple[Remedy, ...] = (), stock: Mapping[tuple[str, str], tuple[float, ...]] | None = None
) -> Book:
    """A catalogue that knows these classes, remedies and sizes, and nothing else."""
    given: dict[str, Any] = {"table": TABLE, "remedies": remedies, "stock": stock or {}, "revision": "r0"}
    return Book(**{one.name: given.get(one.name, {}) for one in dataclasses.fields(Book)})


def mended(
    lines: tuple[Line, ...],
    seated: Mapping[str, Part],
    remedies: tuple[Remedy, ...],
    shelf: tuple[Part, ...] = (),
    stock: Mapping[tuple[str, str], tuple[float, ...]] | None = None,
    before: Mapping[str, Part] | None = None,
    rules: Rulebook = RULEBOOK,
) -> Mended[Any]:
    pattern = pattern_of(*lines)
    book = book_of(remedies, stock)
    now = tuple(Piece(own, one) for own, one in seated.items())
    then = tuple(Piece(own, one) for own, one in (before or {}).items())
    judge = BoardJudge(pattern, book, rules, {}, {piece.seat: piece for piece in then})
    start, stood = judge.judge(now), judge.judge(then) if then else None
    plan = SwapPlan("q", "q", pattern.id, then, now)
    shop = BoardWorkshop(
        judge, plan, start, stood, lambda own: tuple(one for one in shelf if own in TABLE.line_of(one.part_class))
    )
    return mend(start, shop.shop(), most_moves=3, most_nodes=1000, expired=lambda: False)


def moves_of(found: Mended[Any]) -> list[tuple[str, tuple[str, ...]]]:
    """The moves of the first cure, each with its seats; empty where there is no cure."""
    return [(move.remedy.id, tuple(sorted(move.seats))) for move in found.cures[0][0].moves] if found.cures else []


def test_of_two_remedies_that_put_in_the_same_part_the_cheaper_is_told() -> None:
    for first, second in (("dear", "cheap"), ("cheap", "dear")):
        minutes = {"dear": 75.0, "cheap": 60.0}
        found = mended(
            (pair("pair_p", "rear_left"),),
            {"rear_left_pin": part("pin", "pin", p=9), "rear_left_plate": part("plate", "plate", p=8)},
            tuple(remedy(own, "substitute", "end", minutes[own], stock="pin") for own in (first, second)),
            (part("pin-8", "pin", p=8),),
        )
        assert moves_of(found) == [("cheap", ("rear_left_pin",))], f"{first} is listed first"


def test_a_side_that_failed_before_does_not_stand_in_the_way_of_the_other() -> None:
    """One line over both plates: the right one failed before the swap and is left alone; the left one is new."""
    line = Line(
        "plates", "pair_p", "J0", "plates",
        (LineRole("plate", ("rear_left_plate", "rear_right_plate"), "single", ""),
         LineRole("pin", ("rear_left_pin",), "single", "")),
        "each",
    )  # fmt: skip
    pin, good, bad, new = (part(n, c, p=p) for n, c, p in
        (("pin", "pin", 8), ("good", "plate", 8), ("bad", "plate", 5), ("new", "plate", 9)))  # fmt: skip
    found = mended(
        (line,),
        {"rear_left_pin": pin, "rear_left_plate": new, "rear_right_plate": bad},
        (remedy("other_plate", "substitute", "alone", seat="plate", stock="plate"),),
        (part("spare", "plate", p=8),),
        before={"rear_left_pin": pin, "rear_left_plate": good, "rear_right_plate": bad},
    )
    assert moves_of(found) == [("other_plate", ("rear_left_plate",))]


def test_like_seats_already_changed_are_left_out_of_a_later_move() -> None:
    """Alike pins on both sides; the right one takes a short pin of its own first, then the left a long one alone."""
    pin = part("pin-9", "pin", p=9)
    found = mended(
        (pair("pair_p", "rear_left"), pair("pair_p", "rear_right")),
        {
            "rear_left_pin": pin,
            "rear_right_pin": pin,
            "rear_left_plate": part("plate-8", "plate", p=8),
            "rear_right_plate": part("plate-13", "plate", p=13),
        },
        (
            remedy("long_both", "substitute", "end", stock="long_pin"),
            remedy("short_alone", "substitute", "alone", stock="short_pin"),
        ),
        (part("long-8", "long_pin", p=8), part("short-13", "short_pin", p=13)),
    )
    assert sorted(moves_of(found)) == [("long_both", ("rear_left_pin",)), ("short_alone", ("rear_right_pin",))]


def test_like_parts_keep_what_was_altered_on_one_side_alone() -> None:
    """The left pin is filed to size alone; then both are painted: each keeps its own size."""
    pin = part("pin", "pin", p=9, q=1)
    found = mended(
        (pair("pair_p", "rear_left"), pair("pair_p", "rear_right"), pair("pair_q", "rear_right")),
        {
            "rear_left_pin": pin,
            "rear_right_pin": pin,
            "rear_left_plate": part("left-plate", "plate", p=4, q=2),
            "rear_right_plate": part("right-plate", "plate", p=9, q=2),
        },
        (
            remedy("filed", "alter", "alone", attribute="p"),
            remedy("painted", "alter", "end", attribute="q"),
        ),
        stock={("pin", "p"): (4.0,), ("pin", "q"): (2.0,)},
    )
    assert sorted(moves_of(found)) == [
        ("filed", ("rear_left_pin",)),
        ("painted", ("rear_left_pin", "rear_right_pin")),
    ]
    board = found.cures[0][1]
    sizes = {own: [board.seated[own].part.readings[name].nominal for name in ("p", "q")] for own in
        ("rear_left_pin", "rear_right_pin")}  # fmt: skip
    assert sizes == {"rear_left_pin": [4.0, 2.0], "rear_right_pin": [9.0, 2.0]}


def test_a_cure_needs_both_sides_though_neither_alone_betters_the_whole() -> None:
    """Alike pins that each fail in their plate, and a third rule that no single pin can better: two moves."""
    line = Line("sum", "both", "J0", "sum", (
        LineRole("pin", ("rear_left_pin",), "single", ""), LineRole("other_pin", ("rear_right_pin",), "single", "")
    ))  # fmt: skip
    pin = part("pin-60", "pin", p=60)
    found = mended(
        (pair("pair_p", "rear_left"), pair("pair_p", "rear_right"), line),
        {
            "rear_left_pin": pin,
            "rear_right_pin": pin,
            "rear_left_plate": part("plate-20", "plate", p=20),
            "rear_right_plate": part("plate-21", "plate", p=21),
        },
        (remedy("other_pin", "substitute", "alone", stock="pin"),),
        (part("pin-20", "pin", p=20), part("pin-21", "pin", p=21)),
    )
    assert sorted(moves_of(found)) == [("other_pin", ("rear_left_pin",)), ("other_pin", ("rear_right_pin",))]


def test_what_only_another_part_may_cure_is_not_cured_by_the_way() -> None:
    """A refused rule and another read one size; setting it, chosen for the other, would end both."""
    refused = dataclasses.replace(alike("p"), id="pair_p.refused", refused=True)
    rules = {**RULES, refused.id: refused}
    book = Rulebook(rules, {}, {}, "stamp", {**RULEBOOK.by_kind, "strict_p": (refused,)})
    strict = dataclasses.replace(pair("pair_p", "rear_left"), id="strict", kind="strict_p")
    other = Line(
        "a_washer", "pair_p", "J0", "washer",
        (LineRole("pin", ("rear_left_pin",), "single", ""), LineRole("plate", ("rear_left_washer",), "single", "")),
    )  # fmt: skip
    seated = {
        "rear_left_pin": part("pin", "pin", p=9),
        "rear_left_plate": part("plate", "plate", p=8),
        "rear_left_washer": part("washer", "washer", p=8),
    }
    rows = (
        remedy("set_the_pin", "set", "end", attribute="p"),
        remedy("other_plate", "substitute", "end", seat="plate", stock="plate"),
    )
    shelf = (part("plate-9", "plate", p=9),)
    assert moves_of(mended((strict, other), seated, rows, shelf, {("pin", "p"): (8.0,)}, rules=book)) == []
    alone = mended((strict,), seated, rows, shelf, {("pin", "p"): (8.0,)}, rules=book)
    assert moves_of(alone) == [("other_plate", ("rear_left_plate",))]


def test_each_side_names_its_own_parts_that_nobody_measured() -> None:
    """Alike unread parts on one line, others on the next: each finding names those of its own seats."""
    names = {"front": ("pin-a", "pin-a"), "rear": ("pin-p", "pin-q")}
    lines = tuple(
        Line(f"sum@{end}", "both", "J0", "sum", (
            LineRole("pin", (f"{end}_pin",), "single", ""), LineRole("other_pin", (f"{end}_other_pin",), "single", "")
        ))
        for end in names
    )  # fmt: skip
    seats = {own: Seat(own, own, 0, ("pin",), own) for end in names for own in (f"{end}_pin", f"{end}_other_pin")}
    pattern = Pattern("made_up", "made up", seats, lines)
    book = book_of()
    board = BoardJudge(pattern, book, RULEBOOK, {}).judge(
        [Piece(own, part(name, "pin")) for end, some in names.items() for own, name in zip(
            (f"{end}_pin", f"{end}_other_pin"), some, strict=True)]
    )  # fmt: skip
    told = {joint.joint.line.id: joint.findings[0].unread for joint in board.joints}
    assert told == {"sum@front": ("pin-a.p", "pin-a.p"), "sum@rear": ("pin-p.p", "pin-q.p")}
