"""The words of an answer to a swap plan: attributes, bounds, places, moves and readings as people say them."""

from __future__ import annotations

from collections.abc import Sequence

from fitdb.model.remedy import Move
from fitdb.model.verdict import ToMeasure
from fitdb.steps.explain.sentences import Display

# Attributes as people say them, where the bare name does not tell: sizes first, then what is counted.
SAID = {
    "size_a": "size",
    "clamp_bore": "bore",
    "open_volts": "volts with nothing joined",
    "rated_current": "rating",
    "used": "state of wear",
}
COUNTED = {
    "teeth": "teeth",
    "series": "cells in series",
    "parallel": "cells in parallel",
    "channels": "channels",
    "ways": "contacts",
    "window_count": "windows",
    "lug_count": "lugs",
    "insert_count": "inserts",
    "hole_count": "holes",
}
PLACES = ("front", "rear", "left", "right")
LIES = {"catalogue": "to be bought", "stock": "to be bought at your price", "shelf": "from your shelf"}


def bound_told(attribute: str, at_least: bool, value: float, unit: str, display: Display) -> str:
    """`at most 41 teeth`, `outer diameter at least 99.19 mm`."""
    bound = "at least" if at_least else "at most"
    if attribute in COUNTED:
        return f"{bound} {value:g} {COUNTED[attribute]}"
    size = display.size(value, unit) if unit else f"{value:g}"
    return f"{attribute_words(attribute)} {bound} {size}"


def move_told(move: Move) -> str:
    """`other belt: 280 mm belt, rear left and rear right (40 min, 14 mu, to be bought). Gives up: ...`."""
    place = places_of(move.seats)
    at = f", {place}" if place else ""
    where = f", {LIES[move.where]}" if move.where in LIES else ""
    price = f"{move.minutes:g} min, {move.money:g} mu{where}" if not move.another_plan else "another plan"
    for_good = "" if move.remedy.reversible else ", for good"
    tool = f", takes a {move.remedy.tool.replace('_', ' ')}" if move.remedy.tool else ""
    instead = " In place of the one that was asked for." if move.replaces_wanted else ""
    gives = f" Gives up: {move.remedy.gives_up}." if move.remedy.gives_up else ""
    return f"{move.remedy.title}: {move.what}{at} ({price}{for_good}{tool}).{instead}{gives}"


def move_in_brief(move: Move) -> str:
    """What is done, without its price."""
    return move.what if move.remedy.move in ("insert", "substitute") else f"{move.remedy.title}: {move.what}"


def places_of(seats: Sequence[str]) -> str:
    """`rear left and rear right`, from the names of the seats; empty where the board has one such seat."""
    told = []
    for seat in seats:
        words = [word for word in seat.split("_") if word in PLACES]
        told.append(" ".join(words))
    return listed(list(dict.fromkeys(word for word in told if word)))


def without_side(title: str) -> str:
    """A joint's title without the side of the board behind its last comma."""
    bare, _, side = title.rpartition(", ")
    return bare if bare and set(side.split()) <= set(PLACES) else title


def reading_name(one: ToMeasure) -> str:
    """SEAT.ATTRIBUTE as a plan takes it: both sides by one name where both bear the part that is in doubt."""
    asked = {item.seat for finding in one.decides for item in finding.inputs if item.attribute == one.attribute}
    seat = next((seat for seat in one.seats if seat in asked), one.seats[0] if one.seats else one.part)
    words = seat.split("_")
    for side, other in (("left", "right"), ("right", "left")):
        twin = "_".join(other if word == side else word for word in words)
        if side in words and twin in one.seats:
            seat = "_".join(word for word in words if word != side)
    return f"{seat}.{one.attribute}"


def by_tool(tool: str) -> str:
    """`with a caliper`, `by eye`."""
    if tool == "eye":
        return "by eye"
    spoken = tool.replace("_", " ")
    return f"with {'an' if spoken[0] in 'aeio' else 'a'} {spoken}"


def verdict_words(verdict: str) -> str:
    return {
        "fits": "these numbers do not clash",
        "fits_with": "these numbers do not clash with it",
        "measure": "cannot tell yet",
        "clash": "it clashes",
        "not_asked": "nothing could be asked",
    }[verdict]


def class_words(part_class: str) -> str:
    return part_class.replace("_", " ")


def attribute_words(attribute: str) -> str:
    return SAID.get(attribute, attribute.replace("_", " "))


def counted(number: int, what: str) -> str:
    return f"{number} {what}{'' if number == 1 else 's'}"


def listed(names: Sequence[str]) -> str:
    return ", ".join(names[:-1]) + " and " + names[-1] if len(names) > 1 else "".join(names)
