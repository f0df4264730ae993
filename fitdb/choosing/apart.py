"""Parts of one name that were read differently: told apart while they are asked about, and called by their name after.

Somebody who measures one of two trucks has two pieces of one catalogue part. The engine goes by ids, so the second gets
one of its own for as long as the question lasts.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping
from typing import Any

from fitdb.model.part import Part

MARK = "~"  # no id of the catalogue has one


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


def names_of(chosen: Mapping[str, Part]) -> dict[str, str]:
    """By id of the question the name that a person gave, where the two are not the same."""
    return {part.id: part.id.partition(MARK)[0] for part in chosen.values() if MARK in part.id}


def called_by_name(document: Any, names: Mapping[str, str]) -> Any:
    """The document with every such id replaced, in sentences as well."""
    if not names:
        return document
    if isinstance(document, dict):
        return {called_by_name(key, names): called_by_name(value, names) for key, value in document.items()}
    if isinstance(document, list):
        return [called_by_name(one, names) for one in document]
    if isinstance(document, str) and MARK in document:
        for own in sorted(names, key=len, reverse=True):
            document = document.replace(own, names[own])
    return document
