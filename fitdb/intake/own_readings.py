"""A person's own readings in the place of the catalogue's: `rear_left_wheel.window_width: 9.0 +-0.1 mm`."""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping, Sequence

from fitdb.intake.nearest import did_you_mean
from fitdb.intake.part_files import signature
from fitdb.intake.readings import Fits, own_source
from fitdb.intake.readings import read as read_typed
from fitdb.intake.seat_names import seats_named
from fitdb.model.interface import Interface
from fitdb.model.joint import Piece
from fitdb.model.part import AttributeTable, Part
from fitdb.model.pattern import Pattern
from fitdb.model.plan import OwnReading, SwapPlan
from fitdb.model.problems import Malformed, Problem
from fitdb.model.reading import Reading


def with_own_readings(
    pieces: Sequence[Piece],
    readings: Sequence[OwnReading],
    pattern: Pattern,
    table: AttributeTable,
    fits: Fits,
    several: bool = False,
) -> tuple[Piece, ...]:
    """The pieces with the person's own readings in the place of the catalogue's.

    A bare reading counts as taken with a caliper. The role is a piece's seat, its row, its class or its part's id, and
    means one piece; with `several` it may be any name of seats and means every piece there, and what was one and the
    same Part stays one. Raises Malformed with every fault: a role that means no piece, or several where one is
    wanted, an attribute or port that the part does not have, a reading that cannot be read.
    """
    problems: list[Problem] = []
    changed = {piece.seat: piece for piece in pieces}
    for own in readings:
        meant = _meant(own.role, tuple(changed.values()), pattern, several)
        if not meant or (len(meant) > 1 and not several):
            seats = ", ".join(changed)
            why = "no part here is called" if not meant else "several parts here are called"
            problems.append(Problem("which_role", f"{why} {own.role!r}.", own.path, hint=f"Roles filled: {seats}."))
            continue
        done: dict[int, Part] = {}
        for piece in meant:
            if id(piece.part) not in done:
                done[id(piece.part)], found = _with_own_reading(piece.part, own, table, fits)
                problems.extend(found)
            changed[piece.seat] = dataclasses.replace(piece, part=done[id(piece.part)])
    if problems:
        raise Malformed(problems)
    return tuple(changed[piece.seat] for piece in pieces)


def plan_with_own_readings(plan: SwapPlan, pattern: Pattern, table: AttributeTable, fits: Fits) -> SwapPlan:
    """The plan with its own readings applied, before and after: a piece that is kept stays one and the same.

    Where a seat's part is exchanged the reading is of the part that comes in. Raises Malformed as above.
    """
    if not plan.readings:
        return plan
    after = {piece.seat: piece for piece in plan.after}
    # A seat that is emptied is read on the board as it stands.
    leaving = [piece for piece in plan.before if piece.seat not in after]
    read = with_own_readings((*plan.after, *leaving), plan.readings, pattern, table, fits, several=True)
    changed = {piece.seat: piece for piece in read}

    def as_it_stands(piece: Piece) -> Piece:
        stays = piece.seat not in after or after[piece.seat].part is piece.part
        return changed[piece.seat] if stays else piece

    return dataclasses.replace(
        plan,
        before=tuple(as_it_stands(piece) for piece in plan.before),
        after=tuple(changed[piece.seat] for piece in plan.after),
    )


def _meant(role: str, pieces: Sequence[Piece], pattern: Pattern, several: bool) -> tuple[Piece, ...]:
    if several:
        seats = seats_named(role, pattern)
        meant = tuple(piece for piece in pieces if piece.seat in seats)
        return meant or tuple(piece for piece in pieces if role in (piece.part.part_class, piece.part.id))
    return tuple(piece for piece in pieces if role in _names_of(piece, pattern))


def _names_of(piece: Piece, pattern: Pattern) -> set[str]:
    """What a person may call a piece: its seat, its seat's row, its class, its own id."""
    return {piece.seat, pattern.seats[piece.seat].row, piece.part.part_class, piece.part.id}


def _with_own_reading(
    part: Part, own: OwnReading, table: AttributeTable, fits: Fits
) -> tuple[Part, tuple[Problem, ...]]:
    ports = table.ports_of(part.part_class)
    if own.port and own.port not in ports:
        hint = did_you_mean(own.port, ports) or f"Its ports: {', '.join(ports) or 'none'}."
        return part, (Problem("unknown_port", f"{part.id} has no port {own.port!r}.", own.path, hint=hint),)
    port = own.port or part.offers(own.attribute)[0] or _port_offering(part, own.attribute, table)
    if own.port:
        attribute = table.kind_attributes(ports[own.port]).get(own.attribute)
        known = sorted(table.kind_attributes(ports[own.port]))
    else:
        attribute = table.attribute_of(part.part_class, own.attribute, port)
        known = sorted({*table.own_attributes(part.part_class), *_port_attributes(part, table)})
    if attribute is None:
        hint = did_you_mean(own.attribute, known)
        return part, (Problem("unknown_attribute", f"{part.id} has no {own.attribute!r}.", own.path, hint=hint),)
    reading, problems = read_typed(own.typed, attribute, table, fits, own_source("caliper"))
    problems = tuple(dataclasses.replace(problem, path=problem.path or own.path) for problem in problems)
    if problems:
        return part, problems
    if attribute.owner in table.kinds:
        here = part.ports.get(port)
        readings = _replaced(here.readings if here else {}, own.attribute, reading)
        shape = Interface(
            f"{part.id}.{port}", attribute.owner, "own readings", readings, signature(attribute.owner, readings)
        )
        return dataclasses.replace(part, ports={**part.ports, port: shape}), problems
    return dataclasses.replace(part, readings=_replaced(part.readings, own.attribute, reading)), problems


def _replaced(readings: Mapping[str, Reading], attribute: str, reading: Reading | None) -> dict[str, Reading]:
    """The readings with one exchanged; `unknown` takes the catalogue's reading away."""
    kept = {name: old for name, old in readings.items() if name != attribute}
    return kept if reading is None else {**kept, attribute: reading}


def _port_offering(part: Part, attribute: str, table: AttributeTable) -> str:
    """The first port of the part's class whose kind has the attribute, unless the class has it as its own."""
    if attribute in table.own_attributes(part.part_class):
        return ""
    ports = table.ports_of(part.part_class)
    return next((port for port, kind in ports.items() if attribute in table.kind_attributes(kind)), "")


def _port_attributes(part: Part, table: AttributeTable) -> set[str]:
    kinds = table.ports_of(part.part_class).values()
    return {name for kind in kinds for name in table.kind_attributes(kind)}
