"""What may stand in one seat, as the front door tells it: on whole boards of shipped parts, with nothing replaced."""

from __future__ import annotations

import copy
import itertools
from collections import Counter
from collections.abc import Callable
from typing import Any

import pytest
from sqlalchemy import Engine

from api.options import WHOLE
from fitdb.catalogue import read
from fitdb.catalogue.asked import plan_of_document
from fitdb.choose import Question, answer, typed_conditions
from fitdb.choosing.kept import Snapshots
from fitdb.choosing.pages import SORTS, Wanted
from fitdb.model.part import Part
from fitdb.model.problems import Malformed
from fitdb.model.reading import Number
from fitdb.options import Snapshot
from fitdb.rules import rulebook
from fitdb.steps.explain import Display
from fitdb.swap import stock_in, swap

Put = Callable[..., dict[str, Any]]
PLENTY = 60_000.0
MOST = 200
PRICED: dict[str, Any] = {
    **WHOLE,
    "plan": "priced",
    "stock": [{"part": "belt-5mm-260-15", "money": 11}, {"part": "belt-5mm-270-15", "money": 15}],
}
# 48 teeth of 5 mm pitch are 76 mm across: too near the road behind wheels of 90 mm.
BROKEN: dict[str, Any] = {**WHOLE, "plan": "broken", "on": {"driven_pulley": "driven-48-six-lug"}}
# The layout's ratio is about 2.4; nobody reaches 9 with a belt between two pulleys of the catalogue.
WISHED: dict[str, Any] = {**WHOLE, "plan": "wished", "wish": {"ratio": {"floor": 9, "target": 9}}}


@pytest.fixture(scope="module")
def put(sqlite_catalogue: tuple[Engine, read.Book, dict[str, list[Part]]]) -> Put:
    """Asks for options, from snapshots that all tests share; what was answered once is remembered."""
    engine, book, _ = sqlite_catalogue
    snapshots = Snapshots()

    def asked(
        document: dict[str, Any],
        seat: str,
        fresh: bool = False,
        stop: Callable[[], bool] = lambda: False,
        **wanted: Any,
    ) -> dict[str, Any]:
        with engine.connect() as connection:
            plan = plan_of_document(connection, book, document)
            store = Snapshots() if fresh else snapshots
            opened = store.of(connection, book, rulebook(), book.patterns[plan.pattern], plan.limits)
        asking = Wanted(**{"milliseconds": PLENTY, "limit": MOST, "remedies": False, **wanted})
        return answer(Question(plan, document, seat, asking, Display()), opened, rulebook(), book.revision, stop)

    return asked


@pytest.fixture(scope="module")
def belts(put: Put) -> dict[str, Any]:
    """All belts for a whole board, without a search for remedies."""
    return put(WHOLE, "belt", facets=())


def test_every_part_of_the_class_has_a_verdict(
    belts: dict[str, Any], sqlite_catalogue: tuple[Engine, read.Book, dict[str, list[Part]]]
) -> None:
    assert belts["complete"] and belts["broken"] is None and not belts["already_clashing"]
    assert {one["part"] for one in belts["options"]} == {part.id for part in sqlite_catalogue[2]["belt"]}
    assert sum(belts["counts"].values()) == belts["total"] == len(belts["options"])


def test_the_filled_seat_is_opened_and_its_own_part_is_among_the_possible(belts: dict[str, Any]) -> None:
    (current,) = [one for one in belts["options"] if one["current"]]
    assert current["part"] == belts["now"] == WHOLE["board"]["belt"]
    assert current["verdict"] == "fits" and current["owned"] and current["difference"] is None


def test_each_witness_is_a_plan_that_the_swap_judges_as_it_was_told(
    belts: dict[str, Any], put: Put, sqlite_catalogue: tuple[Engine, read.Book, dict[str, list[Part]]]
) -> None:
    engine, book, _ = sqlite_catalogue
    tried = [one for one in belts["options"] if one["witness"] is not None]
    assert len(tried) > 5
    expected = {"fits": {"fits"}, "measure": {"measure", "fits_with"}, "fits_with": {"fits", "measure", "fits_with"}}
    with engine.connect() as connection:
        for option in tried[:8]:
            plan = plan_of_document(connection, book, copy.deepcopy(option["witness"]))
            assert {piece.part.id for piece in plan.after if piece.seat in belts["seats"]} == {option["part"]}
            verdict = swap(plan, book, rulebook(), stock_in(connection))
            assert verdict.as_asked != "clash" and verdict.best_allowed in expected[option["verdict"]]


def test_what_clashes_says_so_with_the_numbers_of_a_finding(belts: dict[str, Any]) -> None:
    clashing = [one for one in belts["options"] if one["verdict"] == "clash"]
    assert clashing
    for one in clashing:
        assert "Fails" in one["sentence"] and any(sign.isdigit() for sign in one["sentence"])
        assert one["witness"] is None and not one["possible"]


def test_facets_count_every_option_once_for_each_verdict(belts: dict[str, Any]) -> None:
    named = {facet["of"] for facet in belts["facets"]}
    assert {"length", "width", "teeth.teeth"} <= named
    for facet in belts["facets"]:
        assert sum(entry["parts"] for entry in facet["entries"]) + facet["unread"] == belts["total"]
        by_verdict: Counter[str] = Counter()
        for entry in facet["entries"]:
            assert sum(entry["counts"].values()) == entry["parts"] > 0
            by_verdict.update(entry["counts"])
        if not facet["unread"]:
            assert by_verdict == Counter({word: many for word, many in belts["counts"].items() if many})


@pytest.mark.parametrize("sort", SORTS)
def test_pages_hold_every_part_once_in_the_order_that_was_asked_for(put: Put, belts: dict[str, Any], sort: str) -> None:
    seen: list[dict[str, Any]] = []
    after = ""
    for _ in range(40):
        page = put(WHOLE, "belt", limit=9, sort=sort, after=after, milliseconds=2000.0)
        seen += page["options"]
        assert page["same_list"] and page["moved_from"] is None
        if page["next"] is None:
            break
        after = page["next"]
    ids = [one["part"] for one in seen]
    assert len(ids) == len(set(ids)) and set(ids) == {one["part"] for one in belts["options"]}
    possible = [one for one in seen if one["possible"] and one["fits_with"] is None]
    for _, some in itertools.groupby(possible, key=lambda one: one["verdict"]):
        group = list(some)
        if sort == "margin":
            shares = [one["margin"]["share"] for one in group]
            assert shares == sorted(shares, reverse=True)
        if sort == "difference":
            amounts = [one["difference"]["amount"] if one["difference"] else 0.0 for one in group]
            assert amounts == sorted(amounts)
        if sort == "id":
            assert [one["part"] for one in group] == sorted(one["part"] for one in group)


def test_a_cursor_of_another_question_is_refused(put: Put) -> None:
    first = put(WHOLE, "belt", limit=9)
    for after in (first["next"], "nonsense", "W10"):
        with pytest.raises(Malformed) as fault:
            put(WHOLE, "belt", limit=9, sort="id" if after == first["next"] else "best", after=after)
        assert [(one.code, one.path) for one in fault.value.problems] == [("bad_cursor", "/after")]


def test_conditions_narrow_the_list_and_unknown_ones_are_refused_with_the_nearest(
    put: Put, belts: dict[str, Any], sqlite_catalogue: tuple[Engine, read.Book, dict[str, list[Part]]]
) -> None:
    widths = {part.id: part.readings.get("width") for part in sqlite_catalogue[2]["belt"]}
    wide = {own for own, reading in widths.items() if isinstance(reading, Number) and 14.0 <= reading.nominal <= 16.0}
    narrow = put(WHOLE, "belt", where={"width": "14mm..16mm"}, milliseconds=2000.0)
    assert 0 < narrow["total"] < belts["total"]
    assert {one["part"] for one in narrow["options"]} == wide
    fitting = {one["part"] for one in belts["options"] if one["verdict"] == "fits"}
    assert narrow["counts"]["fits"] == len(fitting & wide)
    with pytest.raises(Malformed) as fault:
        put(WHOLE, "belt", where={"widht": "15 mm"})
    assert "width" in fault.value.problems[0].hint
    with pytest.raises(Malformed):
        typed_conditions(["width"])


def test_prices_are_shown_and_rule_out_only_when_somebody_insists(put: Put, belts: dict[str, Any]) -> None:
    shown = put(PRICED, "belt", milliseconds=PLENTY)
    price = {one["part"]: one["price"] for one in shown["options"]}
    # Two belts of 11 mu each for the two rear wheels; the rest of the board is owned.
    assert price["belt-5mm-260-15"]["from_mu"] == 22.0
    assert shown["counts"] == belts["counts"]
    insisted = put(PRICED, "belt", milliseconds=PLENTY, most_price=25.0)
    verdict = {one["part"]: one["verdict"] for one in insisted["options"]}
    assert verdict[WHOLE["board"]["belt"]] in ("fits", "checking"), "owned; its washers may have no price"
    assert verdict["belt-5mm-270-15"] == "clash", "two of them cost 30 mu"


def test_a_board_that_clashes_already_is_told_with_its_smallest_change_and_never_as_an_empty_list(put: Put) -> None:
    told = put(BROKEN, "belt")
    assert told["options"] and told["total"] == 79
    (clash,) = [one for one in told["already_clashing"] if one["rule"] == "pulley_ground.stones_pass_under_the_pulley"]
    assert "rear_left_driven_pulley" in clash["seats"] and "mm" in clash["sentence"]
    change = told["broken"]["change"]
    assert change is not None and change["smallest"] and change["given_up"]
    assert {seat.split("_")[-1] for seat in change["given_up"]} in ({"wheel"}, {"pulley"})
    assert any(one["possible"] for one in told["options"]), "the options are those after the change"
    given = {seat: change["instead"][seat] for seat in change["given_up"]}
    mended = put({**BROKEN, "plan": "mended", "on": {**BROKEN["on"], **given}}, "belt")
    assert mended["broken"] is None and mended["counts"]["fits"] + mended["counts"]["measure"] > 0


def test_a_wish_that_excludes_all_is_named(put: Put) -> None:
    told = put(WISHED, "belt", limit=5)
    assert told["total"] == 79 and told["options"]
    assert any("wish" in one["seats"] and "6.6" in one["sentence"] for one in told["already_clashing"])  # 9 - 2.4
    assert told["broken"] is not None and told["broken"]["change"]["given_up"] == ["wish"]


def test_no_time_is_told_as_checking_and_never_as_a_clash(put: Put) -> None:
    for told in (
        put(WHOLE, "belt", fresh=True, milliseconds=0.0),
        put(WHOLE, "belt", fresh=True, stop=lambda: True),
    ):
        assert told["counts"] == {"fits": 0, "measure": 0, "checking": told["total"], "clash": 0}
        assert not told["complete"] and told["total"] == 79


def test_a_part_that_cannot_stand_is_explained_with_the_change_that_lets_it_in(put: Put) -> None:
    # Five windows and six lugs: 6 is not divisible by 5, and spread evenly no lug meets the next window.
    told = put(WHOLE, "wheel", limit=0, why="wheel-90-five-window")["why"]
    assert told["verdict"] == "clash" and "driven-36-six-lug" in told["sentence"] and "is 5" in told["sentence"]
    change = told["change"]
    assert {change["instead"][seat] for seat in change["given_up"]} == {"driven-36-five-lug"}
    assert change["smallest"] and change["witness"]["rear_left_wheel"] == "wheel-90-five-window"
    assert put(WHOLE, "wheel", limit=0, why="wheel-90-six-window")["why"]["verdict"] == "fits"
    with pytest.raises(Malformed) as fault:
        put(WHOLE, "wheel", limit=0, why="wheel-90-six-windows")
    assert "wheel-90-six-window" in fault.value.problems[0].hint


def test_all_other_open_seats_are_told_on_request(put: Put) -> None:
    told = put(WHOLE, "belt", limit=0, everything=True)
    chosen = set(WHOLE["board"])
    assert told["other_seats"] is not None
    for seat in told["other_seats"]:
        assert seat["seat"] not in chosen and seat["may_be_empty"], "the board is whole: nothing has to be put there"
        assert {word: len(ids) for word, ids in seat["parts"].items()} == seat["counts"]


def test_bounds_of_what_is_wanted_are_told_together() -> None:
    with pytest.raises(Malformed) as fault:
        Wanted(limit=900, sort="colour", milliseconds=-1.0, most_price=-2.0).checked()
    assert {one.path for one in fault.value.problems} == {"/limit", "/sort", "/budget_ms", "/most_price_mu"}


def test_what_somebody_measured_goes_into_the_witness(put: Put) -> None:
    own = copy.deepcopy(WHOLE)
    own["plan"] = "measured"
    own["board"]["belt"] = {"part": "belt-5mm-265-15", "readings": {"width": "15.0 +-0.1 mm"}}
    own["readings"] = {"rear_left_wheel.window_width": "9.0 +-0.1 mm"}
    told = put(own, "motor_screw", limit=3)
    witness = next(one["witness"] for one in told["options"] if one["witness"] is not None)
    assert witness["on"]["belt"] == own["board"]["belt"] and witness["readings"] == own["readings"]
    assert "belt" in witness["on"] and "rear_left_belt" not in witness["on"]


def test_the_same_question_has_the_same_answer_from_a_fresh_snapshot(put: Put, belts: dict[str, Any]) -> None:
    again = put(WHOLE, "belt", fresh=True, facets=())
    assert again == belts


@pytest.mark.parametrize(
    "wheel",
    [
        {"part": "wheel-90-six-window", "source": "caliper", "readings": {"outer_diameter": "90.2mm"}},
        {"id": "my-wheel", "class": "wheel", "like": "wheel-90-six-window", "source": "caliper"},
    ],
)
def test_what_is_written_out_for_all_like_seats_stays_written_for_those_that_keep_it(
    wheel: dict[str, Any], put: Put, sqlite_catalogue: tuple[Engine, read.Book, dict[str, list[Part]]]
) -> None:
    plan = {**WHOLE, "board": {**WHOLE["board"], "wheel": wheel}}
    told = put(plan, "rear_right_wheel", limit=2)
    other = next(one for one in told["options"] if not one["current"])
    with sqlite_catalogue[0].connect() as connection:
        board = plan_of_document(connection, sqlite_catalogue[1], copy.deepcopy(other["witness"]))
    wheels = {piece.seat: piece.part for piece in board.after if piece.seat.endswith("_wheel")}
    assert wheels.pop("rear_right_wheel").id == other["part"]
    kept = {part.id for part in wheels.values()}
    assert len(wheels) == 3 and len(kept) == 1
    if "readings" in wheel:
        assert {part.readings["outer_diameter"].entered for part in wheels.values()} == {"90.2mm"}


def test_a_board_that_the_judge_of_whole_boards_does_not_bear_out_is_not_shown(
    put: Put, monkeypatch: pytest.MonkeyPatch
) -> None:
    plain = put(WHOLE, "wheel", fresh=True)
    spoilt = next(line["part"] for line in plain["options"] if line["possible"])
    stands = Snapshot.stands

    def otherwise(self: Snapshot, seated: dict[str, Part]) -> str:
        return "fails" if any(part.id == spoilt for part in seated.values()) else stands(self, seated)

    monkeypatch.setattr(Snapshot, "stands", otherwise)
    told = put(WHOLE, "wheel", fresh=True)
    line = next(line for line in told["options"] if line["part"] == spoilt)
    assert (line["possible"], line["witness"]) == (False, None) and line["verdict"] == "checking"
    assert all(one["witness"] is not None for one in told["options"] if one["verdict"] in ("fits", "measure"))


def test_a_board_that_was_taken_for_another_is_asked_again(put: Put, monkeypatch: pytest.MonkeyPatch) -> None:
    plain, once = put(WHOLE, "wheel", fresh=True), iter(["fails"])
    stands = Snapshot.stands
    monkeypatch.setattr(Snapshot, "stands", lambda self, seated: next(once, "") or stands(self, seated))
    told = put(WHOLE, "wheel", fresh=True)
    verdicts = [[(line["part"], line["verdict"]) for line in one["options"]] for one in (plain, told)]
    assert verdicts[0] == verdicts[1]


def test_what_another_seat_ends_is_no_clash_and_what_is_chosen_is_read_first(put: Put) -> None:
    """Pack and motors alone would brake too weakly; the controllers that go with them brake harder."""
    chosen = {
        "deck": {"class": "deck", "source": "caliper", "readings": {"thickness": "12.1 mm"}},
        "truck": "truck-180-44-round-31-cast",
        "wheel": "wheel-90-six-window",
        "driven_pulley": "driven-40-six-lug",
        "motor": "motor-63x50-170",
        "drive_pulley": "drive-pulley-5mm-13-bore-8-key-3-face-16-5",
        "pack": "pack-10s3p-21700-power",
    }
    plan = {"plan": "ramp", "layout": "two_wheel_belt", "board": chosen, "rider": {"mass": "92 kg"}}
    told = put(plan, "belt")
    possible = [line for line in told["options"] if line["possible"]]
    assert possible and told["broken"] is None and told["already_clashing"] == []
    for line in possible:
        whose = [any(one["seat"].endswith(seat) for seat in (*chosen, "belt", "rider")) for one in line["to_read"]]
        assert whose == sorted(whose, reverse=True) and True in whose
        assert {one["attribute"]: one["finer"] for one in line["to_read"] if one["seat"] == "deck"}["thickness"]
