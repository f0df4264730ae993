"""A blank plan for one board layout: every seat, every section and one plain line about each, ready to be filled in."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from fitdb.intake.plan_wishes import RIDER, ROUTE, WISH, wish_quantities
from fitdb.intake.seat_names import base_name
from fitdb.model.part import AttributeTable
from fitdb.model.pattern import Pattern, Seat

STATED = (RIDER, ROUTE, WISH)
MOST_READINGS = 3
ONE_OF_EACH = "One of each:"


def blank_plan(pattern: Pattern, table: AttributeTable, examples: Mapping[str, str] | None = None) -> str:
    """A commented plan (YAML) for the pattern; as it stands it asks nothing and has no fault.

    Every line under `board` may be put to use by deleting its first `# `. `examples` maps a part class to the id of a
    part that shows how an id looks; without one the line shows a part of one's own.
    """
    groups = _groups(pattern)
    shown = {name: _example(seats[0], examples or {}) for name, seats in groups.items()}
    first = next(iter(groups), "deck")
    parts = [f"{first}: {shown[first]}"] if groups else []
    quantities = wish_quantities(table)
    lines = [
        f"# A plan for the layout {pattern.id}: {pattern.title}.",
        "# Lines that begin with # are not read. Delete the # of those that you need, and the others if you like.",
        "plan: my-swap  # a name of your own: a-z 0-9 . _ -",
        "# title: What the plan is called in answers",
        f"layout: {pattern.id}",
        "",
        "# The board as it stands. Leave all of it out for a board that you build new.",
        "# A part is an id of the catalogue (`fitdb find` lists them),",
        "# or {part: ID, readings: {ATTRIBUTE: VALUE}} for one of the catalogue with readings of your own,",
        "# or {class: CLASS, source: caliper, readings: {ATTRIBUTE: VALUE}} for one that the catalogue does not have.",
        "# A name that several seats bear fills them all, and the most specific name wins.",
        "board:",
    ]
    heading = ONE_OF_EACH
    for name, seats in groups.items():
        if _heading(name, seats) != heading:
            heading = _heading(name, seats)
            lines.append(f"  # {heading}")
        lines.append(_seat_line(name, seats, shown[name]))
    lines += [
        "",
        "# Other boards whose parts you may take, each by a name of your own; seats as above.",
        "donors:",
        *_commented("  ", [f"old_board: {{{part}}}" for part in parts]),
        "",
        "# Seats that are cleared. What comes in their place needs no line here.",
        "off:",
        *_commented("  ", [f"- {first}"] if groups else []),
        "",
        "# What goes on, by seat. `from old_board` takes what stands in the same seat there,",
        "# `from old_board.SEAT` what stands in another.",
        "on:",
        *_commented("  ", parts),
        "",
        "# Parts that lie on your shelf; they cost nothing.",
        "shelf:",
        *_commented("  ", [f"- {shown[first]}"] if groups else []),
        "",
        "# Parts that you can buy, with your own prices in money units of about one euro or dollar.",
        "stock:",
        "# May an answer use the whole catalogue, or only what is listed here: catalogue, listed.",
        "buy: catalogue",
        "",
        "# Tools that you own. Leave it out, and every tool may be asked for.",
        "tools:",
        *_commented("  ", ["- hex_keys"]),
        "",
        "# Seats whose parts stay as they are: neither altered nor exchanged.",
        "keep_as_is:",
        *_commented("  ", [f"- {first}"] if groups else []),
        "",
        "# How many changes one answer may combine, from 1 to 12.",
        "most_moves: 9",
        "",
        "# Readings of your own, SEAT.ATTRIBUTE: VALUE, like 9.0 +-0.1 mm. A setting is a reading too.",
        "readings:",
        "",
        "# Limits of your own by key; `fitdb rules` prints the keys.",
        "limits:",
    ]
    if RIDER in pattern.seats and RIDER in table.classes:
        lines += ["", "# Who rides.", f"{RIDER}:", *_readings(RIDER, table)]
    if ROUTE in pattern.seats and ROUTE in table.classes:
        lines += ["", "# Where it is ridden.", f"{ROUTE}:", *_readings(ROUTE, table)]
    if WISH in pattern.seats and quantities:
        lines += [
            "",
            "# What the board should do: a target, and a floor below which it must not fall.",
            f"{WISH}:",
            *(f"  # {name}: {{{', '.join(f'{bound}: …' for bound in bounds)}}}" for name, bounds in quantities.items()),
        ]
    return "\n".join(lines) + "\n"


def _groups(pattern: Pattern) -> dict[str, list[Seat]]:
    """Like seats of all places under the name that they share, in the pattern's order."""
    groups: dict[str, list[Seat]] = {}
    for seat in pattern.seats.values():
        if seat.id not in STATED:
            groups.setdefault(base_name(seat), []).append(seat)
    return groups


def _heading(name: str, seats: list[Seat]) -> str:
    """How the seats of a group are named one by one: the words that may stand before the name that they share."""
    others = dict.fromkeys(other for seat in seats for other in (*seat.names, seat.id) if other != name)
    words = [other.removesuffix(name) for other in others if other.endswith(f"_{name}")]
    if not words:
        return ONE_OF_EACH
    last = f" or {words[-1]}" if len(words) > 1 else words[-1]
    return f"Also with {', '.join(words[:-1])}{last} before the name:"


def _seat_line(name: str, seats: list[Seat], example: str) -> str:
    place = seats[0].id.removesuffix(f"_{name}").replace("_", " ")
    title = seats[0].title.removesuffix(f", {place}")
    classes = list(dict.fromkeys(part_class for seat in seats for part_class in seat.classes))
    takes = f"; takes {', '.join(classes)}" if example != _own_part(classes[0]) or len(classes) > 1 else ""
    return f"  # {name}: {example}  # {title}{takes}"


def _example(seat: Seat, examples: Mapping[str, str]) -> str:
    found = next((examples[part_class] for part_class in seat.classes if part_class in examples), "")
    return found or _own_part(seat.classes[0])


def _own_part(part_class: str) -> str:
    return f"{{class: {part_class}}}"


def _readings(part_class: str, table: AttributeTable) -> list[str]:
    own = table.own_attributes(part_class)
    return [f"  # {name}: …  # {attribute.title}" for name, attribute in list(own.items())[:MOST_READINGS]]


def _commented(indent: str, lines: Iterable[str]) -> list[str]:
    return [f"{indent}# {line}" for line in lines]
