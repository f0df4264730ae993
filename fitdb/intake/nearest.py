"""The known word that a mistyped one was probably meant to be."""

from __future__ import annotations

import difflib
from collections.abc import Iterable

CUTOFF = 0.5


def nearest(typed: str, known: Iterable[str], how_many: int = 1) -> tuple[str, ...]:
    """Up to `how_many` of the known words, most alike first; empty when nothing is alike.

    Case, spaces and hyphens do not count, because people write `Hard Edge` for `hard_edge`.
    """
    by_plain: dict[str, str] = {}
    for word in known:
        by_plain.setdefault(plain(word), word)
    alike = difflib.get_close_matches(plain(typed[:80]), list(by_plain), n=how_many, cutoff=CUTOFF)
    return tuple(by_plain[word] for word in alike)


def did_you_mean(typed: str, known: Iterable[str]) -> str:
    """A sentence for a message, or nothing when no known word is alike."""
    alike = nearest(typed, known)
    return f"Did you mean `{alike[0]}`?" if alike else ""


def plain(word: str) -> str:
    """The word as it is compared: lower case, one underscore for any run of spaces and hyphens."""
    return "_".join(word.casefold().replace("-", " ").replace("_", " ").split())


def shortened(text: str, length: int = 40) -> str:
    """What was typed, short enough to be quoted in a message, with nothing in it that a screen would act on."""
    shown = "".join(character if character.isprintable() else "\N{REPLACEMENT CHARACTER}" for character in text)
    return shown if len(shown) <= length else shown[: length - 1] + "…"
