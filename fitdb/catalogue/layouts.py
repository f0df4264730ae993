"""Board layouts from template rows: one set of seats and lines, written once, spread over the places of a board.

A seat or line with `per` stands once for each end, side, place or box; `{end}`, `{side}`, `{place}` and `{box}` in its
names are filled in. A pattern that draws on another's lines (`lines_of`) names the groups of seats it has; what its
seats cannot fill is left out of the lines. Everything here is pure.
"""

from __future__ import annotations

import dataclasses
import re
from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from typing import Any

from fitdb.model.pattern import Line, LineRole, Pattern, Seat

Row = Mapping[str, Any]

ENDS, SIDES, BOXES = ("front", "rear"), ("left", "right"), ("box", "second_box")
PER: dict[str, tuple[dict[str, str], ...]] = {
    "": ({},),
    "end": tuple({"end": end} for end in ENDS),
    "side": tuple({"side": side} for side in SIDES),
    "place": tuple({"place": f"{end}_{side}", "end": end, "side": side} for end in ENDS for side in SIDES),
    "box": tuple({"box": box} for box in BOXES),
}
PLACEHOLDER = re.compile(r"\{(\w+)\}")


def filled(text: str, values: Mapping[str, str]) -> str:
    """`{place}_wheel` with place rear_left is `rear_left_wheel`. Raises KeyError for a placeholder without a value."""
    return PLACEHOLDER.sub(lambda found: values[found.group(1)], text)


def seats_of(row: Row) -> tuple[tuple[str, Seat], ...]:
    """(value of `per`, seat) for every seat that a row stands for, in the order of the places."""
    found = []
    for order, values in enumerate(PER[row["per"]]):
        own = filled(row["id"], values)
        title = row["title"] if not values else f"{row['title']}, {_worded(values[row['per']])}"
        seat = Seat(
            id=own,
            row=row["row"],
            order=row["place"] + order * 100,
            classes=tuple(row["classes"].split()),
            title=title,
            names=_names(row["id"], values, own),
        )
        found.append((values.get(row["per"], ""), seat))
    return tuple(found)


def lines_of(row: Row, roles: Iterable[Row]) -> tuple[Line, ...]:
    """Every line that a row stands for, its roles with it, before seats that a pattern lacks are left out."""
    listed = tuple(roles)
    found = []
    for values in PER[row["per"]]:
        value = values.get(row["per"], "")
        found.append(
            Line(
                id=row["id"] + (f"@{value}" if value else ""),
                kind=row["kind"],
                joint=row["joint"],
                title=row["title"] + (f", {_worded(value)}" if value else ""),
                roles=tuple(
                    LineRole(one["role"], tuple(filled(one["seats"], values).split()), one["how"], one["port"])
                    for one in listed
                ),
                expansion=row["expansion"],
                chain_seats=tuple(filled(row["chain_seats"], values).split()),
                constants=constants_of(row["constants"]),
            )
        )
    return tuple(found)


class Layouts(Mapping[str, Pattern]):
    """Patterns by id, each built when it is first asked for: a board has some hundred lines."""

    def __init__(
        self,
        patterns: Iterable[Row],
        seats: Iterable[Row],
        lines: Iterable[Row],
        roles: Iterable[Row],
    ) -> None:
        self.rows = {row["id"]: row for row in patterns}
        self.seats: defaultdict[str, list[Row]] = defaultdict(list)
        self.lines: defaultdict[str, list[Row]] = defaultdict(list)
        self.roles: defaultdict[tuple[str, str], list[Row]] = defaultdict(list)
        for row in seats:
            self.seats[row["pattern_id"]].append(row)
        for row in lines:
            self.lines[row["pattern_id"]].append(row)
        for row in roles:
            self.roles[row["pattern_id"], row["line_id"]].append(row)
        self.built: dict[str, Pattern] = {}

    def __getitem__(self, own: str) -> Pattern:
        if own not in self.built:
            self.built[own] = self._build(self.rows[own])
        return self.built[own]

    def __iter__(self) -> Iterator[str]:
        return iter(self.rows)

    def __len__(self) -> int:
        return len(self.rows)

    def _build(self, row: Row) -> Pattern:
        drawn_on = row["lines_of"]
        groups = groups_of(row["groups"])
        seats: dict[str, Seat] = {}
        for one in (*(self.seats[drawn_on] if drawn_on else ()), *self.seats[row["id"]]):
            taken = [groups[name] for name in one["groups"].split() if name in groups]
            for value, seat in seats_of(one):
                everywhere = one["pattern_id"] == row["id"]
                if everywhere or any(not values or not value or value in values for values in taken):
                    seats[seat.id] = seat
        lines: dict[str, tuple[Line, ...]] = {}
        for one in (*(self.lines[drawn_on] if drawn_on else ()), *self.lines[row["id"]]):
            lines[one["id"]] = lines_of(one, self.roles[one["pattern_id"], one["id"]])
        kept = [_within(line, seats) if drawn_on else line for some in lines.values() for line in some]
        return Pattern(row["id"], row["title"], seats, tuple(line for line in kept if line is not None))


def groups_of(text: str) -> dict[str, tuple[str, ...]]:
    """`deck belt@rear_left,rear_right` names two groups; the second holds at two places only."""
    found = {}
    for entry in text.split():
        name, _, values = entry.partition("@")
        found[name] = tuple(value for value in values.split(",") if value)
    return found


def constants_of(text: str) -> tuple[dict[str, float], ...]:
    """What `over` counts over: `end=1 end=-1` is two entries, `end=1,side=-1` one entry of two constants.

    ValueError when an entry is not name=number.
    """
    entries = []
    for entry in text.split():
        pairs = [pair.partition("=") for pair in entry.split(",")]
        entries.append({name: float(value) for name, _, value in pairs})
    return tuple(entries)


def _within(line: Line, seats: Mapping[str, Seat]) -> Line | None:
    """The line with the seats that the pattern has; None when a role that must be filled has none left."""
    roles = tuple(
        dataclasses.replace(role, seats=tuple(seat for seat in role.seats if seat.removeprefix("before:") in seats))
        for role in line.roles
    )
    chain = tuple(seat for seat in line.chain_seats if seat in seats)
    if line.expansion == "chain":
        if len(chain) < 2 or any(role.how == "single" and not role.seats for role in roles):
            return None
    elif any(role.how == "single" and not role.seats for role in roles):
        return None
    if line.expansion == "each" and not roles[0].seats:
        return None
    return dataclasses.replace(line, roles=roles, chain_seats=chain)


def _names(template: str, values: Mapping[str, str], own: str) -> tuple[str, ...]:
    """What a seat may be called: `wheel`, `rear_wheel`, `left_wheel` and `rear_left_wheel` are one seat's names."""
    if not values:
        return (own,)
    base = PLACEHOLDER.sub("", template).strip("_")
    worn = [base, *(f"{value}_{base}" if base else value for value in values.values()), own]
    return tuple(dict.fromkeys(name for name in worn if name))


def _worded(value: str) -> str:
    return value.replace("_", " ")
