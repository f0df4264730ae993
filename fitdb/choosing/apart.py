"""Ids that last as long as a question, and the names that are told for them.

Somebody who measures one of two trucks has two pieces of one catalogue part: the engine goes by ids, so the second gets
one of its own. And of parts that are alike in everything one stands for all of them, under an id that says so.
"""

from __future__ import annotations

import dataclasses
import re
from collections.abc import Callable, Mapping
from typing import Any

from fitdb.model.part import Part

MARK = "~"  # no id of the catalogue has one
LIKE = "like"
MARKED = re.compile(rf"[a-z0-9][a-z0-9._-]*(?:{MARK}(?:{LIKE}|[0-9]+))+")


def told_apart(chosen: Mapping[str, Part]) -> dict[str, Part]:
    """The chosen parts by seat, with ids that are different where the parts are."""
    known: dict[str, list[tuple[Part, Part]]] = {}
    found = {}
    for seat, part in chosen.items():
        alike = known.setdefault(part.id, [])
        own = next((renamed for other, renamed in alike if other is part or other == part), None)
        if own is None:
            own = dataclasses.replace(part, id=f"{part.id}{MARK}{len(alike) + 1}") if alike else part
            alike.append((part, own))
        found[seat] = own
    return found


def standing_for(part: Part) -> Part:
    """The part under the id by which it stands for all that are like it."""
    return dataclasses.replace(part, id=f"{part.id}{MARK}{LIKE}")


def called_by_name(document: Any, name: Callable[[str], str]) -> Any:
    """The document with every id of a question replaced by its name, in sentences as well."""

    def called(value: Any) -> Any:
        if isinstance(value, dict):
            return {called(key): called(inner) for key, inner in value.items()}
        if isinstance(value, list):
            return [called(inner) for inner in value]
        return MARKED.sub(lambda found: name(found[0]), value) if isinstance(value, str) and MARK in value else value

    return called(document)
