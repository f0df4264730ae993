"""Every remedy row can become a move on a board, says plainly what it is, and touches nothing that is refused."""

from __future__ import annotations

import re
from collections import Counter
from typing import Any

import pytest

from fitdb.catalogue.read import Book
from fitdb.model.part import Part
from fitdb.model.remedy import Remedy
from fitdb.rules import rulebook

# Hex keys, sockets, screwdrivers and a knife are owned by everybody. Common practice, no source.
TOOLS = {"drill", "file", "lathe", "multimeter", "saw", "soldering_iron"}
NOT_BOARDS = ("loose", "board")
# Ratings and kinds that belong to a part for good, beside all that a refused rule compares. No settings.
PRINTED = {
    "absolute_volts", "breaking_current", "capacity_ah", "cell_charge_current",
    "cell_continuous_current", "cell_format", "charge_plug_form", "chemistry", "continuous_current",
    "discharge_bypassed", "electrical_speed_limit", "full_volts", "least_volts", "link_current", "mass_rating",
    "locking", "nylon", "open_volts", "parallel", "peak_current", "phase_continuous_current", "plug_current",
    "plug_form", "polarity", "rated_current", "series", "static_rating", "thread", "trip_current",
}  # fmt: skip
LOWERED = {
    "braking_charge_limit", "charge_current", "motor_current", "pack_current", "rev_ceiling", "speed_ceiling",
    "soft_cutoff_end", "soft_cutoff_start",
}  # fmt: skip

Shelf = tuple[Any, Book, dict[str, list[Part]]]


def seat_classes(book: Book, name: str) -> set[tuple[str, ...]]:
    """What the seats of that name take, on every layout of a whole board."""
    return {
        seat.classes
        for own, pattern in book.patterns.items()
        if own not in NOT_BOARDS
        for seat in pattern.seats.values()
        if name in (*seat.names, seat.id)
    }


def sitting(book: Book, remedy: Remedy) -> set[str]:
    """Part classes that may sit where the remedy works, those like them included."""
    named = {own for classes in seat_classes(book, remedy.seat) for own in classes}
    return {own for own in book.table.classes if named & set(book.table.line_of(own))}


def changes(book: Book) -> list[Remedy]:
    return [remedy for remedy in book.remedies if remedy.move in ("alter", "set")]


def test_every_row_reaches_a_seat_of_a_board(sqlite_catalogue: Shelf) -> None:
    _, book, _ = sqlite_catalogue
    assert [remedy.id for remedy in book.remedies if not seat_classes(book, remedy.seat)] == []


def test_what_is_put_in_is_sold_and_goes_into_the_seat(sqlite_catalogue: Shelf) -> None:
    _, book, by_class = sqlite_catalogue
    for remedy in book.remedies:
        if remedy.move in ("insert", "substitute"):
            sold = {own for own in by_class if remedy.stock in book.table.line_of(own)}
            assert sold & sitting(book, remedy), f"{remedy.id}: no {remedy.stock} among the parts goes there"
            assert not book.table.classes[remedy.stock].another_plan, f"{remedy.id} makes it another plan"


def test_what_is_changed_has_sizes_or_words_to_choose_from(sqlite_catalogue: Shelf) -> None:
    _, book, _ = sqlite_catalogue
    for remedy in changes(book):
        described = {own: book.table.attribute_of(own, remedy.attribute) for own in sitting(book, remedy)}
        found = {own: one for own, one in described.items() if one is not None}
        assert found, f"{remedy.id}: nothing that sits there has {remedy.attribute}"
        for own, attribute in found.items():
            if attribute.reading == "word":
                assert len(attribute.vocabulary) > 1 or own != attribute.owner, f"{remedy.id}: one word for {own}"
            else:
                line = book.table.line_of(own)
                sizes = any((one, remedy.attribute) in book.stock for one in line)
                assert sizes, f"{remedy.id}: no stock of {own}.{remedy.attribute}"


def test_sizes_in_stock_are_in_order_and_possible(sqlite_catalogue: Shelf) -> None:
    _, book, _ = sqlite_catalogue
    for (own, name), sizes in book.stock.items():
        assert list(sizes) == sorted(set(sizes)), f"{own}.{name}"
        attribute = book.table.attribute_of(own, name)
        assert attribute is not None, f"{own} has no {name}"
        if attribute.physical:
            low, high = attribute.physical
            assert low <= sizes[0] and sizes[-1] <= high, f"{own}.{name}: {sizes[0]} to {sizes[-1]}"


def refused_attributes() -> set[str]:
    """What refused rules compare, followed down through the sizes that are worked out."""
    rules = rulebook()
    waiting = [need for rule in rules.rules.values() if rule.refused for need in rule.needs]
    found: set[str] = set()
    while waiting:
        need = waiting.pop()
        found.add(need.split(".", 1)[1])
        if need in rules.survey:
            waiting.extend(rules.survey[need].needs)
    return found


def test_nothing_refused_and_nothing_printed_is_changed(sqlite_catalogue: Shelf) -> None:
    """Charger volts, cell counts, chemistry, ratings: a remedy may bring another part, never another number."""
    _, book, _ = sqlite_catalogue
    refused = refused_attributes()
    assert {"series", "chemistry", "open_volts", "absolute_volts", "full_volts"} <= refused
    assert [remedy.id for remedy in changes(book) if remedy.attribute in refused | PRINTED] == []
    sized = {f"{own}.{name}" for own, name in book.stock if name in refused | PRINTED}
    assert sized - {"fuse.rated_current"} == set(), "fuses are sold by their rated current; no row changes one"


def test_bores_of_bearings_and_holes_of_hangers_are_never_drilled(sqlite_catalogue: Shelf) -> None:
    _, book, _ = sqlite_catalogue
    for remedy in changes(book):
        line = {one for own in sitting(book, remedy) for one in book.table.line_of(own)}
        assert not {"bearing", "hanger"} & line or remedy.attribute == "max_lean", remedy.id  # that is the bushings'


def test_ids_and_titles_are_plain_and_each_stands_once(sqlite_catalogue: Shelf) -> None:
    _, book, _ = sqlite_catalogue
    for what in ("id", "title"):
        twice = [own for own, times in Counter(getattr(remedy, what) for remedy in book.remedies).items() if times > 1]
        assert twice == []
    for remedy in book.remedies:
        assert re.fullmatch(r"[a-z]+(_[a-z]+)*", remedy.id), remedy.id
        assert re.fullmatch(r"[a-z][^_]*[a-z)]", remedy.title), remedy.title


def test_tools_are_of_the_vocabulary(sqlite_catalogue: Shelf) -> None:
    _, book, _ = sqlite_catalogue
    assert {remedy.tool for remedy in book.remedies} - {""} == TOOLS
    cut = [remedy for remedy in book.remedies if remedy.tool in ("drill", "file", "lathe", "saw")]
    assert [remedy.id for remedy in cut if remedy.reversible] == [], "what is cut stays cut"


@pytest.mark.parametrize(
    ("together", "seats"),
    [
        ("board", {"wheel", "hub_sleeve", "deck_nut"}),
        (
            "end",
            {
                "riser", "riser_2", "wedge", "grid_adapter", "deck_bolt", "thick_end_bolt", "bushing", "bearing",
                "spacer", "bearing_shim", "inner_spacer", "second_inner_spacer", "speed_ring", "axle_nut", "lug_plate",
                "driven_pulley", "drive_pulley", "belt", "idler", "key", "bush", "motor_mount", "clamp_shim",
                "motor_screw", "face_plate", "face_plate_screw",
            },
        ),
    ],
)  # fmt: skip
def test_like_seats_move_together_as_they_are_ridden(sqlite_catalogue: Shelf, together: str, seats: set[str]) -> None:
    """Four wheels of one size; axle, belt and bolts alike on both sides of one truck. Common practice, no source."""
    _, book, _ = sqlite_catalogue
    assert seats <= {remedy.seat for remedy in book.remedies}
    assert [one.id for one in book.remedies if one.seat in seats and one.together != together] == []


def test_both_controllers_can_be_set_alike(sqlite_catalogue: Shelf) -> None:
    _, book, _ = sqlite_catalogue
    by_seat = {
        seat: {remedy.attribute for remedy in book.remedies if remedy.seat == seat}
        for seat in ("controller", "controller_2")
    }
    assert by_seat["controller"] == by_seat["controller_2"]


def test_lower_settings_say_what_they_cost(sqlite_catalogue: Shelf) -> None:
    _, book, _ = sqlite_catalogue
    settings = [remedy for remedy in changes(book) if remedy.attribute in LOWERED]
    assert {remedy.attribute for remedy in settings} == LOWERED
    assert [remedy.id for remedy in settings if not remedy.gives_up or not remedy.reversible] == []
    free = {"other_belt", "other_deck_bolts", "other_motor_screws", "other_box_screws", "other_fuse"}
    assert {remedy.id for remedy in book.remedies if not remedy.gives_up} >= free
