"""Parts that say the same in everything share a line, whichever of them is chosen, owned, priced or measured."""

from __future__ import annotations

import copy
import dataclasses
import json
from collections.abc import Callable, Iterator
from typing import Any

import pytest
from sqlalchemy import Engine
from test_choose import PLENTY, WHOLE

from fitdb.catalogue import read
from fitdb.catalogue.asked import plan_of_document
from fitdb.catalogue.keep import save_part
from fitdb.catalogue.paths import SEED
from fitdb.catalogue.session import open_catalogue, writing
from fitdb.choose import Question, answer
from fitdb.choosing.kept import Snapshots
from fitdb.choosing.pages import Wanted
from fitdb.model.part import Part
from fitdb.model.problems import Malformed
from fitdb.options import Budget, Snapshot, options
from fitdb.rules import rulebook
from fitdb.steps.explain import Display

Put = Callable[..., dict[str, Any]]
THERE = str(WHOLE["board"]["belt"])
SOLD = ("a-belt-sold-by-a", "z-belt-sold-by-b", "z-belt-sold-by-c")  # one comes before the shipped one, two behind
SAME = {THERE, *SOLD}


@pytest.fixture(scope="module")
def sold(tmp_path_factory: pytest.TempPathFactory) -> Iterator[tuple[Engine, read.Book]]:
    """The shipped catalogue, in which the belt of the board is sold under three more names."""
    engine = open_catalogue(f"sqlite:///{tmp_path_factory.mktemp('alike') / 'catalogue.sqlite'}", seed=SEED)
    with writing(engine).begin() as connection:
        shipped = read.part(connection, THERE)
        assert shipped is not None
        for own in SOLD:
            save_part(connection, dataclasses.replace(shipped, id=own, title=f"Belt, {own}", version=1), None)
    with engine.connect() as connection:
        book = read.book(connection)
    yield engine, book
    engine.dispose()


@pytest.fixture(scope="module")
def put(sold: tuple[Engine, read.Book]) -> Put:
    engine, book = sold
    snapshots = Snapshots()

    def asked(document: dict[str, Any], seat: str = "belt", **wanted: Any) -> dict[str, Any]:
        with engine.connect() as connection:
            plan = plan_of_document(connection, book, document)
            opened = snapshots.of(connection, book, rulebook(), book.patterns[plan.pattern], plan.limits)
        asking = Wanted(**{"milliseconds": PLENTY, "limit": 200, "remedies": False, **wanted})
        told = answer(Question(plan, document, seat, asking, Display()), opened, rulebook(), book.revision)
        assert "~" not in json.dumps({**told, "plan": ""}), "no id of the engine is told"
        return told

    return asked


@pytest.fixture(scope="module")
def belts(put: Put) -> dict[str, Any]:
    return put(WHOLE, facets=())


def with_belt(own: str | list[str], **more: Any) -> dict[str, Any]:
    plan = copy.deepcopy(WHOLE)
    board = {key: value for key, value in plan["board"].items() if key != "belt"}
    several = {"belt": own} if isinstance(own, str) else dict(zip(("left_belt", "right_belt"), own, strict=True))
    return {**plan, "board": {**board, **several}, **more}


def line_of(told: dict[str, Any], own: str) -> dict[str, Any]:
    (line,) = [one for one in told["options"] if own == one["part"] or own in one["alike"]["parts"]]
    return dict(line)


def test_they_stand_once_in_the_list_and_are_counted_each(
    belts: dict[str, Any], sold: tuple[Engine, read.Book]
) -> None:
    line = line_of(belts, SOLD[0])
    assert {line["part"], *line["alike"]["parts"]} == SAME and line["alike"]["count"] == 3
    with sold[0].connect() as connection:
        every = {part.id for part in read.parts_of_classes(connection, ("belt",))}
    listed = [own for one in belts["options"] for own in (one["part"], *one["alike"]["parts"])]
    assert sorted(listed) == sorted(every)
    assert belts["total"] == len(every) == sum(belts["counts"].values())
    assert belts["different"] == len(every) - 3 == len(belts["options"])
    for facet in belts["facets"]:
        assert sum(one["parts"] for one in facet["entries"]) + facet["unread"] == belts["total"]


def test_the_verdict_of_each_is_what_it_is_when_all_are_asked_one_by_one(
    belts: dict[str, Any], sold: tuple[Engine, read.Book]
) -> None:
    engine, book = sold
    with engine.connect() as connection:
        plan = plan_of_document(connection, book, WHOLE)
        by_class: dict[str, tuple[Part, ...]] = {
            name: read.parts_of_classes(connection, (name,))
            for seat in book.patterns[plan.pattern].seats.values()
            for name in seat.classes
        }
    pattern = book.patterns[plan.pattern]
    found = options(
        book, rulebook(), pattern, lambda name: by_class.get(name, ()), {one.seat: one.part for one in plan.after},
        "belt", budget=Budget(PLENTY), snapshot=Snapshot(pattern, book, rulebook(), dict(book.limits)),
    )  # fmt: skip
    told = {own: one["verdict"] for one in belts["options"] for own in (one["part"], *one["alike"]["parts"])}
    assert found.complete and told == {one.part.id: one.verdict for one in found.options}


def test_the_one_that_is_chosen_speaks_for_them(put: Put, belts: dict[str, Any]) -> None:
    assert line_of(belts, THERE)["part"] == THERE == belts["now"]
    told = put(with_belt(SOLD[1]))
    line = line_of(told, THERE)
    assert told["now"] == line["part"] == SOLD[1] and line["current"] and line["title"] == f"Belt, {SOLD[1]}"
    assert line["verdict"] == line_of(belts, THERE)["verdict"]


def test_else_the_one_that_is_owned_and_of_the_priced_ones_the_cheapest_counts(put: Put) -> None:
    open_seat = with_belt(THERE)
    del open_seat["board"]["belt"]
    owned = put({**open_seat, "shelf": [SOLD[2]]})
    assert line_of(owned, THERE)["part"] == SOLD[2] and line_of(owned, THERE)["owned"]
    stock = [{"part": SOLD[1], "money": 15}, {"part": SOLD[0], "money": 11}]
    priced = line_of(put({**open_seat, "stock": stock}), THERE)
    assert priced["part"] == SOLD[0] and priced["price"]["cheapest_seen_mu"] == 22.0  # a belt on either side


def test_what_is_chosen_costs_what_it_costs_and_not_what_its_like_does(put: Put) -> None:
    stock = [{"part": SOLD[1], "money": 20}, {"part": SOLD[0], "money": 5}]
    plan = {key: value for key, value in with_belt(THERE).items() if key != "on"}
    board = {key: value for key, value in plan["board"].items() if key != "belt"}
    chosen = {**plan, "board": board, "on": {"belt": SOLD[1]}, "stock": stock}
    line = line_of(put(chosen), SOLD[1])
    assert line["part"] == SOLD[1] and not line["owned"] and line["price"]["from_mu"] >= 40
    owned = {**chosen, "shelf": [SOLD[2]]}
    singly = {one["part"]: one for one in put(owned, alike_to=SOLD[1])["options"]}
    assert {own: one["owned"] for own, one in singly.items()} == {own: own == SOLD[2] for own in SAME}
    assert singly[SOLD[1]]["price"] is not None and singly[SOLD[0]]["price"] is None


def test_on_request_they_are_told_one_by_one_in_pages(put: Put, belts: dict[str, Any]) -> None:
    seen: list[dict[str, Any]] = []
    after = ""
    while True:
        page = put(WHOLE, alike_to=SOLD[1], limit=3, after=after)
        assert page["total"] == page["different"] == 4
        seen += page["options"]
        if page["next"] is None:
            break
        after = page["next"]
    assert [one["part"] for one in seen] == [THERE, *SOLD], "what is owned comes first"
    assert {one["verdict"] for one in seen} == {line_of(belts, THERE)["verdict"]}
    assert [one["title"] for one in seen if one["part"] == SOLD[0]] == [f"Belt, {SOLD[0]}"]
    assert [one["part"] for one in seen if one["current"]] == [THERE] and seen[0]["difference"] is None
    assert {one["alike"]["count"] for one in seen} == {3}
    for one in seen:
        stands = [value for seat, value in one["witness"]["on"].items() if "belt" in seat and "belt" in str(value)]
        assert set(stands) == {one["part"]}
    with pytest.raises(Malformed, match="is asked about for the seat belt"):
        put(WHOLE, alike_to="belt-of-nobody")


def test_two_of_them_that_are_both_chosen_keep_their_names(put: Put) -> None:
    told = put(with_belt([SOLD[2], SOLD[0]]), "wheel", limit=1)
    board = told["options"][0]["witness"]["on"]
    assert {seat: own for seat, own in board.items() if seat.endswith("_belt")} == {
        "rear_left_belt": SOLD[2], "rear_right_belt": SOLD[0],
    }  # fmt: skip


def test_the_other_of_two_is_still_to_be_had_for_the_seat_of_the_one(put: Put, belts: dict[str, Any]) -> None:
    told = put(with_belt([SOLD[2], SOLD[0]]), "rear_left_belt", why=SOLD[0])
    assert told["why"]["part"] == SOLD[0] and told["total"] == belts["total"]
    line = line_of(told, SOLD[0])
    assert line["part"] == told["now"] == SOLD[2] and {line["part"], *line["alike"]["parts"]} == SAME


def test_one_that_was_measured_is_asked_about_by_itself(put: Put, belts: dict[str, Any]) -> None:
    for own in (THERE, SOLD[0], SOLD[2]):
        told = put(with_belt(own, readings={"belt.width": "15.4mm"}))
        line = line_of(told, own)
        assert told["now"] == line["part"] == own and line["alike"] == {"count": 0, "parts": []}
        others = line_of(told, next(one for one in SOLD if one != own))
        assert {others["part"], *others["alike"]["parts"]} == SAME - {own}
        assert told["total"] == belts["total"]


def test_why_not_speaks_of_the_part_that_was_asked_about(put: Put) -> None:
    wide = with_belt(SOLD[1], on={"driven_pulley": "driven-48-six-lug"})
    told = put(wide, why=SOLD[2], limit=0)
    assert told["why"]["part"] == SOLD[2]


def test_only_ids_of_the_question_are_put_into_other_words(put: Put) -> None:
    assert put({**WHOLE, "title": "Beach 5~6 km, v1~2"}, limit=1)["plan"]["title"] == "Beach 5~6 km, v1~2"
    for own in (f"{SOLD[0]}~like", f"{THERE}~2"):
        with pytest.raises(Malformed, match="is asked about for the seat belt"):
            put(WHOLE, alike_to=own)
