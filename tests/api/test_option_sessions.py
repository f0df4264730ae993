"""Boards put together over HTTP choice by choice, from an empty layout to a whole board that is judged to fit."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import httpx
import pytest
from live_server import asked_options as asked

Check = Callable[[httpx.Response, str, str], None]
# A board without a drive has the fewest seats; ten choices leave the rest to the witness.
CHOICES = ("deck", "truck", "wheel", "bearing", "bushing", "axle_nut", "deck_bolt", "deck_nut", "grip", "front_spacer")
DRIVEN = (
    "deck", "truck", "wheel", "driven_pulley", "belt", "motor", "drive_pulley", "motor_mount", "pack", "controller",
)  # fmt: skip
EMPTY: dict[str, Any] = {"plan": "from-nothing", "layout": "unpowered", "board": {}}
# A truck whose axle nobody has read, and what a builder reads on it and beside it.
UNREAD = {
    "deck": "deck-carbon-hollow-920", "truck": "truck-160-hub-12", "wheel": "wheel-70-solid",
    "bearing": "bearing-608", "bushing": "bushings-80-barrel", "axle_nut": "axle-nut-5-16",
    "deck_bolt": "deck-bolt-10-32-31", "deck_nut": "deck-nut-10-32", "grip": "grip-foam-6",
}  # fmt: skip
TAKEN = {
    "grip.under_bolt_heads": "no",
    "truck.thread": "unf_5_16_24",
    "truck.thread_pitch": "1.058 mm",
    "truck.axle_diameter": "7.95 +-0.02 mm",
    "truck.axle_length": "60.0 +-0.1 mm",
    "front_wheel.seat_gap": "9.93 +-0.03 mm",
}
MOST_ASKED = 40
SEEN: dict[str, list[tuple[str, dict[str, int]]]] = {}


def until_complete(client: httpx.Client, body: dict[str, Any]) -> dict[str, Any]:
    """Asks again until nothing is left to check: what was found is kept from one time to the next."""
    for _ in range(MOST_ASKED):
        told = asked(client, {**body, "budget_ms": 8000})
        if told["complete"]:
            return told
        assert not told["counts"]["clash"] or told["counts"]["checking"] + told["counts"]["measure"] >= 0
    pytest.fail(f"not complete after {MOST_ASKED} times: {told['counts']}")


def test_ten_choices_by_the_api_alone_make_a_whole_board(client_on_each: httpx.Client, check: Check) -> None:
    board: dict[str, str] = {}
    picks: list[tuple[str, dict[str, int]]] = []
    last: dict[str, Any] = {}
    for seat in CHOICES:
        last = until_complete(client_on_each, {"plan": {**EMPTY, "board": board}, "seat": seat, "remedies": False})
        assert last["broken"] is None and last["options"], seat
        best = last["options"][0]
        assert best["possible"], f"{seat}: what was chosen before leaves a board"
        picks.append((best["part"], last["counts"]))
        board = {**board, seat: best["part"]}
    witness = last["options"][0]["witness"]
    response = client_on_each.post("/v1/swaps", json=witness, timeout=120)
    check(response, "/v1/swaps", "post")
    verdict = response.json()
    expected = {"fits": ("fits", "fits_with"), "measure": ("measure", "fits_with")}[last["options"][0]["verdict"]]
    assert verdict["as_asked"] != "clash" and verdict["verdict"] in expected
    open_ones = {one["part"] for one in last["options"][0]["to_read"]}
    assert open_ones <= {part for part in witness["on"].values() if isinstance(part, str)}
    SEEN[str(client_on_each.base_url)] = picks
    assert len({str(one) for one in SEEN.values()}) == 1, "the same choices and counts on both databases"


def test_ten_choices_make_a_whole_board_with_a_drive(client: httpx.Client) -> None:
    """Motors, belts, pack and controller: the seats that are left take what the last answer's board has in them."""
    board: dict[str, str] = {}
    last: dict[str, Any] = {}
    for seat in DRIVEN:
        plan = {**EMPTY, "layout": "two_wheel_belt", "board": board}
        last = until_complete(client, {"plan": plan, "seat": seat, "remedies": False})
        assert last["broken"] is None and last["options"][0]["verdict"] == "fits", seat
        board = {**board, seat: last["options"][0]["part"]}
    assert last["options"][0]["to_read"] == []
    verdict = client.post("/v1/swaps", json=last["options"][0]["witness"], timeout=120).json()
    assert verdict["as_asked"] == verdict["verdict"] == "fits"


def test_what_is_left_to_read_is_listed_and_once_entered_the_board_fits(client: httpx.Client) -> None:
    plan = {**EMPTY, "board": UNREAD}
    last = until_complete(client, {"plan": plan, "seat": "front_spacer", "remedies": False})
    best = next(one for one in last["options"] if one["part"] == "bearing-spacer-10-0")
    assert best["verdict"] == "measure"
    witness = best["witness"]
    first = client.post("/v1/swaps", json=witness, timeout=120).json()
    assert first["as_asked"] == "measure"
    listed = {(one["part"], one["attribute"]) for one in best["to_read"]}
    assert {(one["part"], one["attribute"]) for one in first["measure_first"]} <= listed
    entered = client.post("/v1/swaps", json={**witness, "readings": TAKEN}, timeout=120).json()
    assert entered["as_asked"] == entered["verdict"] == "fits"
