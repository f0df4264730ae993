"""What a move changes: a part with another reading, how far two parts are apart, what it is called. Pure."""

from __future__ import annotations

import dataclasses
from collections.abc import Hashable, Iterable, Iterator

from fitdb.board import Judged, Stood
from fitdb.model.finding import Finding
from fitdb.model.interface import Interface
from fitdb.model.joint import Piece
from fitdb.model.part import Attribute, Part
from fitdb.model.pattern import Seat
from fitdb.model.reading import Count, Designation, Number, Reading, Word
from fitdb.model.remedy import Move, Remedy
from fitdb.model.source import Source

MIRRORED = {"left": "right", "right": "left"}
SETTING = Source("chosen_setting", "standard", "a setting or size that is chosen, not measured", "")


def with_reading(part: Part, place: str, attribute: str, reading: Reading) -> Part:
    """The part with another reading at one of its ports (`place`), or of its own where `place` is empty."""
    if not place:
        return dataclasses.replace(part, readings={**part.readings, attribute: reading})
    port = part.ports[place]
    changed = Interface(port.id, port.kind, port.title, {**port.readings, attribute: reading}, "", port.version)
    return dataclasses.replace(part, ports={**part.ports, place: changed})


def changed(reading: Reading, value: object) -> Reading:
    """The reading at a chosen value: a size keeps its spread, a setting (which had none) has none."""
    if isinstance(reading, Word):
        return dataclasses.replace(reading, possible=frozenset((str(value),)), entered=str(value), source=SETTING)
    number = float(value)  # type: ignore[arg-type]
    if isinstance(reading, Count):
        return Count((round(number),), round(number), SETTING, f"{number:g}", unit=reading.unit)
    assert isinstance(reading, Number | Designation)
    low, high = number - (reading.nominal - reading.low), number + (reading.high - reading.nominal)
    return dataclasses.replace(
        reading,
        low=low,
        nominal=number,
        high=high,
        source=SETTING,
        entered=f"{number:g} {reading.unit}".strip(),
        value_assumed=False,
    )


def exchange(part_class: str, seat: str) -> Remedy:
    """Another part of a class whose exchange makes it another plan; told under `instead`, never as a remedy."""
    title = f"another {part_class.replace('_', ' ')}"
    return Remedy(f"another_{part_class}", title, "substitute", seat, part_class, "", True, "", 0.0, 0.0, "", "board")


def wished(finding: Finding) -> Iterator[tuple[str, float]]:
    """(quantity, floor) of a finding that holds an achieved quantity against a floor of the wish."""
    for item in finding.inputs:
        if item.need.startswith("wish.") and item.attribute.endswith("_floor") and isinstance(item.reading, Number):
            yield item.attribute.removesuffix("_floor"), item.reading.nominal


def distance(part: Part, other: Part) -> float:
    """How far apart two parts of a class are: relative differences of sizes, one for each word or drawing that differs,
    at the part and at its ports."""
    total = 0.0
    there = dict(_readings_of(other))
    for name, reading in _readings_of(part):
        twin = there.get(name)
        if isinstance(reading, Number | Designation | Count) and isinstance(twin, Number | Designation | Count):
            total += min(1.0, abs(reading.nominal - twin.nominal) / max(abs(reading.nominal), 1e-9))
        elif isinstance(reading, Word) and isinstance(twin, Word):
            total += float(reading.possible != twin.possible)
        elif twin is None:
            total += 0.5
    return total


def _readings_of(part: Part) -> Iterator[tuple[tuple[str, str], Reading]]:
    for name, reading in part.readings.items():
        yield ("", name), reading
    for port, interface in part.ports.items():
        for name, reading in interface.readings.items():
            yield (port, name), reading


def unread_at(stood: Iterable[Stood], move: Move) -> bool:
    """Whether a doubt hangs on a reading of the part put in that nobody took."""
    return any(one.state == "undecided" and not one.unread_at.isdisjoint(move.seats) for one in stood)


def change_told(attribute: str, reading: Reading, value: object) -> str:
    """`pack current 30 A to 20 A`; where nobody had read it, `pack current set to 20 A`."""
    unit = getattr(reading, "unit", "")
    name = attribute.replace("_", " ")
    if reading.value_assumed:
        return f"{name} set to {_value(value, unit)}".strip()
    return f"{name} {_shown(reading)} to {_value(value, unit)}".strip()


def setting_unread(described: Attribute | None) -> Reading | None:
    """What stands for a setting that nobody has read, while it is set: any value of its range, or any of its words."""
    if described is None or described.owner == "":
        return None
    if described.reading == "word":
        return Word(frozenset(described.vocabulary), SETTING, "", True, described.open_vocabulary)
    if described.reading == "number" and described.plausible is not None:
        high = described.plausible[1]
        return Number(high, high, high, described.unit, SETTING, "", True)
    return None


def base_of(seat: Seat) -> str:
    """The seat's name without its place: `wheel` of `rear_left_wheel`."""
    return seat.names[0] if seat.names else seat.id


def _shown(reading: Reading) -> str:
    if isinstance(reading, Word):
        return " or ".join(sorted(reading.possible)).replace("_", " ")
    assert isinstance(reading, Number | Designation | Count)
    return _value(reading.nominal, reading.unit)


def _value(value: object, unit: str) -> str:
    return str(value).replace("_", " ") if isinstance(value, str) else f"{float(value):g} {unit}".strip()  # type: ignore[arg-type]


def side_of(seat: str) -> str:
    """`rear_left_` of `rear_left_wheel`; the whole name where the seat has no side."""
    end, _, rest = seat.partition("_")
    side = rest.partition("_")[0]
    return f"{end}_{side}_" if side in MIRRORED else seat


def part_in(piece: Piece | None) -> Part | None:
    return piece.part if piece is not None else None


def part_id(piece: Piece | None) -> str:
    return piece.part.id if piece is not None else ""


def mark_of(board: Judged) -> Hashable:
    return frozenset((seat, id(piece.part)) for seat, piece in board.seated.items())
