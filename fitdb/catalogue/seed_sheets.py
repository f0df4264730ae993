"""Which tables a seed directory holds, which headings each has, and how a cell becomes a value.

Interfaces and parts are not here: their headings follow from the attributes of their kind or class (`seed_parts`).
"""

from __future__ import annotations

import math
import re
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from fitdb.catalogue.layouts import PER, PLACEHOLDER, constants_of, groups_of
from fitdb.model.remedy import MOVES, TOGETHER
from fitdb.model.source import SOURCE_KINDS, STANDINGS

ID_FORM = re.compile(r"[A-Za-z0-9][A-Za-z0-9_.+-]*")


# --- cells: each function returns the value or raises ValueError with what is wanted ---------------------------


def text(cell: str) -> str:
    return cell


def some_text(cell: str) -> str:
    if not cell:
        raise ValueError("it is empty.")
    return cell


def identifier(cell: str) -> str:
    if not ID_FORM.fullmatch(cell):
        raise ValueError("an id is letters, digits, `_`, `-`, `.` or `+`, and begins with a letter or digit.")
    return cell


def identifiers(cell: str) -> str:
    return " ".join(identifier(entry) for entry in cell.split())


def seat_name(cell: str) -> str:
    """An id that may hold `{end}`, `{side}`, `{place}` or `{box}`."""
    known = {name for values in PER.values() for one in values for name in one}
    for name in PLACEHOLDER.findall(cell):
        if name not in known:
            raise ValueError(f"`{{{name}}}` is none of {', '.join(sorted(known))}.")
    identifier(PLACEHOLDER.sub("x", cell))
    return cell


def seat_names(cell: str) -> str:
    return " ".join(seat_name(entry) for entry in cell.split())


def groups(cell: str) -> str:
    for name, values in groups_of(cell).items():
        for entry in (name, *values):
            identifier(entry)
    return cell


def together(cell: str) -> str:
    return one_of("", *TOGETHER)(cell) or "end"


def yes_no(cell: str) -> bool:
    if cell not in ("yes", "no"):
        raise ValueError("yes or no is wanted.")
    return cell == "yes"


def number(cell: str) -> float:
    try:
        value = float(cell)
    except ValueError:
        raise ValueError("a number is wanted.") from None
    if not math.isfinite(value):
        raise ValueError("a finite number is wanted.")
    return value


def maybe_number(cell: str) -> float | None:
    return number(cell) if cell else None


def number_or_zero(cell: str) -> float:
    return number(cell) if cell else 0.0


def not_negative(cell: str) -> float:
    value = number(cell)
    if value < 0:
        raise ValueError("it may not be negative.")
    return value


def numbers(cell: str) -> tuple[float, ...]:
    if not cell:
        raise ValueError("at least one number is wanted.")
    return tuple(number(entry) for entry in cell.split())


def whole_number(cell: str) -> int:
    try:
        return int(cell)
    except ValueError:
        raise ValueError("a whole number is wanted.") from None


def one_of(*words: str) -> Callable[[str], str]:
    def parse(cell: str) -> str:
        if cell not in words:
            raise ValueError(f"one of these is wanted: {', '.join(word or '(blank)' for word in words)}.")
        return cell

    return parse


def constants(cell: str) -> str:
    try:
        constants_of(cell)
    except ValueError:
        raise ValueError("entries such as `end=1 end=-1` are wanted.") from None
    return cell


# --- what each file holds ----------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Field:
    """One column of a file: its heading, the table's column that it fills, how to read a cell, what ids refer to."""

    heading: str
    column: str
    parse: Callable[[str], Any]
    refers: str = ""
    may_be_missing: bool = False


@dataclass(frozen=True, slots=True)
class Sheet:
    """One table and the files that fill it, merged: by file pattern, files of one pattern in alphabetical order.

    key: the columns that no two rows share. ordered: rows keep their position.
    """

    files: tuple[str, ...]
    table: str
    key: tuple[str, ...]
    fields: tuple[Field, ...]
    ordered: bool = False
    may_be_missing: bool = False


SOURCE = Field("source", "source_id", identifier, refers="source")
READINGS = ("number", "count", "word", "designation", "outline")

SHEETS = (
    Sheet(("sources.csv", "sources/*.csv"), "source", ("id",), (
        Field("id", "id", identifier),
        Field("kind", "kind", one_of(*SOURCE_KINDS)),
        Field("title", "title", some_text),
        Field("standing", "standing", one_of(*STANDINGS)),
    )),
    Sheet(("spreads.csv", "spreads/*.csv"), "spread", ("source_kind", "family"), (
        Field("source_kind", "source_kind", one_of(*SOURCE_KINDS)),
        Field("family", "family", identifier),
        Field("minus", "minus", not_negative),
        Field("plus", "plus", not_negative),
        Field("percent", "percent", yes_no),
        SOURCE,
    )),
    Sheet(("fits.csv", "fits/*.csv"), "fit", ("fit", "over"), (
        Field("fit", "fit", some_text),
        Field("over", "over", number),
        Field("up_to", "up_to", number),
        Field("minus", "minus", number),
        Field("plus", "plus", number),
        SOURCE,
    )),
    Sheet(("fit_names.csv", "fit_names/*.csv"), "fit_name", ("fit", "name"), (
        Field("fit", "fit", some_text),
        Field("name", "name", some_text),
        Field("nominal", "nominal", number),
        SOURCE,
    ), may_be_missing=True),
    Sheet(("part_classes.csv", "part_classes/*.csv"), "part_class", ("id",), (
        Field("id", "id", identifier),
        Field("title", "title", some_text),
        Field("like", "like_ids", identifiers, refers="part_class"),
        Field("another_plan", "another_plan", yes_no),
        SOURCE,
    ), ordered=True),
    Sheet(("interface_kinds.csv", "interface_kinds/*.csv"), "interface_kind", ("id",), (
        Field("id", "id", identifier),
        Field("title", "title", some_text),
        SOURCE,
    ), ordered=True),
    Sheet(("class_ports.csv", "class_ports/*.csv"), "class_port", ("class_id", "port"), (
        Field("class", "class_id", identifier, refers="part_class"),
        Field("port", "port", identifier),
        Field("kind", "kind_id", identifier, refers="interface_kind"),
        Field("title", "title", some_text),
        SOURCE,
    ), ordered=True),
    Sheet(("attributes.csv", "attributes/*.csv"), "attribute", ("owner", "name"), (
        Field("owner", "owner", identifier),
        Field("name", "name", identifier),
        Field("reading", "reading", one_of(*READINGS)),
        Field("unit", "unit", text),
        Field("title", "title", some_text),
        Field("physical_low", "physical_low", maybe_number),
        Field("physical_high", "physical_high", maybe_number),
        Field("plausible_low", "plausible_low", maybe_number),
        Field("plausible_high", "plausible_high", maybe_number),
        Field("default", "default", text),
        Field("default_minus", "default_minus", number_or_zero),
        Field("default_plus", "default_plus", number_or_zero),
        Field("vocabulary", "vocabulary", identifiers),
        Field("open", "open", yes_no),
        Field("fit", "fit", text),
        Field("family", "family", text),
        Field("tool", "tool", text),
        Field("how", "how", text),
        SOURCE,
    ), ordered=True),
    Sheet(("patterns.csv", "patterns/patterns.csv", "patterns/*_patterns.csv"), "pattern", ("id",), (
        Field("id", "id", identifier),
        Field("title", "title", some_text),
        Field("lines_of", "lines_of", text),
        Field("groups", "groups", groups),
        SOURCE,
    ), ordered=True, may_be_missing=True),
    Sheet(("patterns/seats.csv", "patterns/*_seats.csv"), "seat", ("pattern_id", "id"), (
        Field("pattern", "pattern_id", identifier),
        Field("seat", "id", seat_name),
        Field("per", "per", one_of(*PER), may_be_missing=True),
        Field("group", "groups", groups, may_be_missing=True),
        Field("row", "row", text),
        Field("order", "place", whole_number),
        Field("classes", "classes", identifiers, refers="part_class"),
        Field("title", "title", some_text),
        SOURCE,
    ), ordered=True),
    Sheet(("patterns/lines.csv", "patterns/*_lines.csv"), "line", ("pattern_id", "id"), (
        Field("pattern", "pattern_id", identifier),
        Field("line", "id", identifier),
        Field("per", "per", one_of(*PER), may_be_missing=True),
        Field("kind", "kind", identifier),
        Field("joint", "joint", identifier),
        Field("title", "title", some_text),
        Field("expansion", "expansion", one_of("", "chain", "each", "over")),
        Field("chain_seats", "chain_seats", seat_names),
        Field("constants", "constants", constants, may_be_missing=True),
        SOURCE,
    ), ordered=True),
    Sheet(("patterns/line_roles.csv", "patterns/*_line_roles.csv"), "line_role", ("pattern_id", "line_id", "role"), (
        Field("pattern", "pattern_id", identifier),
        Field("line", "line_id", identifier),
        Field("role", "role", identifier),
        Field("seats", "seats", text),
        Field("how", "how", one_of("single", "list", "if_present")),
        Field("port", "port", text),
    ), ordered=True),
    Sheet(("remedies.csv", "remedies/*.csv"), "remedy", ("id",), (
        Field("id", "id", identifier),
        Field("title", "title", some_text),
        Field("move", "move", one_of(*MOVES)),
        Field("seat", "seat", identifier),
        Field("stock", "stock", text),
        Field("attribute", "attribute", text),
        Field("reversible", "reversible", yes_no),
        Field("gives_up", "gives_up", text),
        Field("minutes", "minutes", not_negative),
        Field("money", "money", not_negative),
        Field("together", "together", together, may_be_missing=True),
        Field("tool", "tool", text, may_be_missing=True),
        Field("only", "only", identifiers, may_be_missing=True),
        SOURCE,
    ), ordered=True),
    Sheet(("units.csv", "units/*.csv"), "unit", ("id",), (
        Field("id", "id", identifier),
        Field("title", "title", some_text),
        Field("seats", "seats", identifiers),
        Field("minutes", "minutes", not_negative),
        SOURCE,
    ), ordered=True, may_be_missing=True),
    Sheet(("stock.csv", "stock/*.csv"), "stock", ("class_id", "attribute"), (
        Field("class", "class_id", identifier, refers="part_class"),
        Field("attribute", "attribute", identifier),
        Field("values", "size", numbers),
        SOURCE,
    )),
    Sheet(("limits.csv", "limits/*.csv"), "limit_override", ("key",), (
        Field("key", "key", identifier),
        Field("value", "value", number),
        SOURCE,
        Field("why", "why", text),
    )),
)  # fmt: skip
