"""From what a person asked to a question: ids looked up, part and plan files read, all faults at once."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from sqlalchemy import Connection

from fitdb.catalogue import read
from fitdb.catalogue.read import Book
from fitdb.intake.assignments import parse_limits, parse_parts, parse_readings
from fitdb.intake.nearest import did_you_mean, shortened
from fitdb.intake.own_readings import plan_with_own_readings
from fitdb.intake.part_files import parse_part_document, parse_part_file
from fitdb.intake.plan_files import parse_plan_document, parse_plan_file
from fitdb.model.part import Part
from fitdb.model.plan import FitQuestion, OwnReading, SwapPlan
from fitdb.model.problems import Malformed, Problem
from fitdb.rules import limit_keys, rulebook

NO_BOARDS = ("loose", "board")  # parts on the table; the rows that all layouts draw on
FILE_ENDINGS = (".yaml", ".yml", ".json")
LARGEST_FILE = 1_000_000


@dataclass(frozen=True, slots=True)
class Named:
    """One part as it was named: an id, or a document with an inline part; `role` and `path` as the person gave them."""

    role: str
    part_id: str
    document: object
    path: str


def typed_question(
    connection: Connection,
    book: Book,
    names: Sequence[str],
    in_roles: Iterable[str] = (),
    readings: Iterable[str] = (),
    limits: Iterable[str] = (),
) -> FitQuestion:
    """The question typed on a command line: ids or part files, ROLE=PART, ROLE.ATTRIBUTE=VALUE, KEY=NUMBER.

    Raises Malformed with every fault of every argument.
    """
    problems: list[Problem] = []
    parts: list[tuple[str, Part]] = []
    for index, name in enumerate(names):
        if name.lower().endswith(FILE_ENDINGS):
            found, faults = parts_of_file(connection, book, Path(name))
            parts += [("", part) for part in found]
        else:
            part, faults = _by_id(connection, name, f"/parts/{index}")
            parts += [("", part)] if part else []
        problems += faults
    assigned, faults = parse_parts(in_roles)
    problems += faults
    own = {part.id: part for _, part in parts}
    for index, one in enumerate(assigned):
        if one.part in own:  # the role of a part that is named already
            parts = [(one.role, part) if part.id == one.part else (role, part) for role, part in parts]
            continue
        part, faults = _by_id(connection, one.part, f"/with/{index}")
        problems += faults
        parts += [(one.role, part)] if part else []
    typed, faults = parse_readings(readings)
    problems += faults
    own_limits, faults = parse_limits(limits)
    problems += faults
    if problems:
        raise Malformed(problems)
    own_readings = tuple(
        OwnReading(one.role, one.attribute, one.value, f"/reading/{index}", one.port) for index, one in enumerate(typed)
    )
    return FitQuestion(tuple(parts), own_readings, own_limits)


def document_question(
    connection: Connection,
    book: Book,
    named: Sequence[Named],
    readings: Mapping[str, object],
    limits: Mapping[str, float],
    path: str = "",
) -> FitQuestion:
    """The same for a decoded document: ids or inline parts, readings as {"role.attribute": value}."""
    problems: list[Problem] = []
    parts: list[tuple[str, Part]] = []
    for one in named:
        if one.document is None:
            part, faults = _by_id(connection, one.part_id, one.path)
            parts += [(one.role, part)] if part else []
        else:
            found, faults = _inline(connection, book, one.document)
            faults = tuple(replace(fault, path=one.path + fault.path.removeprefix("/part")) for fault in faults)
            parts += [(one.role, part) for part in found]
        problems += faults
    own_readings = []
    for name, value in readings.items():
        role, dot, attribute = name.rpartition(".")
        port = ""
        if role.count(".") == 1 and all(role != part.id for _, part in parts):  # ROLE.PORT.ATTRIBUTE
            role, _, port = role.partition(".")
        where = f"{path}/readings/{name}"
        if not dot or not role:
            hint = 'Write it like "wheel.window_width".'
            problems.append(Problem("bad_assignment", f"`{shortened(name)}` is not ROLE.ATTRIBUTE.", where, hint=hint))
        own_readings.append(OwnReading(role, attribute, value, where, port))
    if problems:
        raise Malformed(problems)
    return FitQuestion(tuple(parts), tuple(own_readings), dict(limits))


def parts_of_file(connection: Connection, book: Book, file: Path) -> tuple[tuple[Part, ...], tuple[Problem, ...]]:
    """The parts of a YAML or JSON file, with every fault by row and column."""
    text, faults = _text_of_file(file)
    if text is None:
        return (), faults
    return parse_part_file(
        text,
        file_name=file.name,
        table=book.table,
        fits=book.fits,
        catalogue_part=lambda part_id: read.part(connection, part_id),
        catalogue_interface=lambda interface_id: read.interface(connection, interface_id),
    )


def _inline(connection: Connection, book: Book, document: object) -> tuple[tuple[Part, ...], tuple[Problem, ...]]:
    return parse_part_document(
        {"part": document},
        table=book.table,
        fits=book.fits,
        catalogue_part=lambda part_id: read.part(connection, part_id),
        catalogue_interface=lambda interface_id: read.interface(connection, interface_id),
    )


def _by_id(connection: Connection, part_id: str, path: str) -> tuple[Part | None, tuple[Problem, ...]]:
    part = read.part(connection, part_id)
    if part is not None:
        return part, ()
    hint = did_you_mean(part_id, read.part_ids_near(connection, part_id))
    what = f"the catalogue has no part {shortened(part_id)!r}."
    return None, (Problem("unknown_part", what, path, hint=hint or "`fitdb find` and GET /v1/parts list what it has."),)


def plan_of_file(connection: Connection, book: Book, file: Path, readings: Iterable[str] = ()) -> SwapPlan:
    """The swap plan in a YAML or JSON file, with readings typed beside it (ROLE.ATTRIBUTE=VALUE) applied.

    Raises Malformed with every fault, by row and column.
    """
    text, faults = _text_of_file(file)
    if text is None:
        raise Malformed(faults)
    plan, faults = parse_plan_file(text, file_name=file.name, **_known_to_plans(connection, book))
    typed, more = parse_readings(readings)
    if plan is None or faults or more:
        raise Malformed((*faults, *more))
    own = tuple(
        OwnReading(one.role, one.attribute, one.value, f"/reading/{index}", one.port) for index, one in enumerate(typed)
    )
    return _with_readings(replace(plan, readings=(*plan.readings, *own)), book)


def plan_of_document(connection: Connection, book: Book, document: object) -> SwapPlan:
    """The same for decoded JSON; faults carry JSON pointers."""
    plan, faults = parse_plan_document(document, **_known_to_plans(connection, book))
    if plan is None or faults:
        raise Malformed(faults)
    return _with_readings(plan, book)


def _with_readings(plan: SwapPlan, book: Book) -> SwapPlan:
    if plan.pattern in NO_BOARDS:
        hint = f"Layouts: {', '.join(own for own in book.patterns if own not in NO_BOARDS)}."
        what = f"`{plan.pattern}` is not the layout of a board."
        raise Malformed([Problem("unknown_layout", what, "/layout", hint=hint)])
    return plan_with_own_readings(plan, book.patterns[plan.pattern], book.table, book.fits)


def _known_to_plans(connection: Connection, book: Book) -> dict[str, Any]:
    """What the catalogue tells a reader of plans; parts are looked up once each."""
    parts: dict[str, Part | None] = {}

    def catalogue_part(part_id: str) -> Part | None:
        if part_id not in parts:
            parts[part_id] = read.part(connection, part_id)
        return parts[part_id]

    return {
        "patterns": book.patterns,
        "table": book.table,
        "fits": book.fits,
        "catalogue_part": catalogue_part,
        "catalogue_interface": lambda interface_id: read.interface(connection, interface_id),
        "part_ids_near": lambda typed: read.part_ids_near(connection, typed),
        "limit_keys": limit_keys(rulebook()),
        "tools": tuple(sorted({remedy.tool for remedy in book.remedies if remedy.tool})),
    }


def _text_of_file(file: Path) -> tuple[str | None, tuple[Problem, ...]]:
    """The text of a file that somebody names, or why it cannot be read."""
    try:
        if file.exists() and not file.is_file():
            hint = "Name a YAML or JSON file."
            return None, (Problem("no_such_file", "this is not a file.", file=str(file), hint=hint),)
        with file.open("rb") as opened:
            content = opened.read(LARGEST_FILE + 1)
        if len(content) > LARGEST_FILE:
            what = f"the file is larger than {LARGEST_FILE // 1_000_000} MB."
            return None, (Problem("too_large", what, file=str(file), hint="It holds parts, not a catalogue."),)
        return content.decode("utf-8"), ()
    except UnicodeDecodeError:
        return None, (Problem("not_text", "the file is not UTF-8 text.", file=str(file), hint="Save it as UTF-8."),)
    except OSError as fault:
        why = f"the file cannot be read ({fault.strerror})."
        return None, (Problem("no_such_file", why, file=str(file), hint="Check its name."),)
