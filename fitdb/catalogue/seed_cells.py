"""How a cell of a seed table becomes a value, and how a file is told: its columns, what they fill and refer to."""

from __future__ import annotations

import math
import re
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from fitdb.catalogue.layouts import PER, PLACEHOLDER, constants_of, groups_of
from fitdb.model.remedy import TOGETHER

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


def whole_numbers(cell: str) -> str:
    return " ".join(str(whole_number(entry)) for entry in cell.split())


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
