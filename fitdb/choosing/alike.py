"""Parts of the catalogue that say the same in everything stand in a list once, and go by one of their names.

A person's own part speaks for its like: the one that was chosen, else one that is owned, else one with a price.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Collection, Iterable, Mapping, Sequence
from typing import Any

from fitdb.catalogue.snapshot import PartSnapshot, Signature
from fitdb.choosing.apart import MARK, standing_for
from fitdb.model.part import Part
from fitdb.possible.answer import VERDICTS, Option

FIRST = 20  # names beside a line that stands for several


class Alike:
    """The parts of one question by the ids that the engine knows them by.

    kinds: by such an id what it stands for, where that is more than one part. chosen: by seat, the parts of the
    question as the engine is asked with them. names: by id of the engine the name that is told, where it is not what
    the id was made of.
    """

    def __init__(
        self,
        shelf: PartSnapshot,
        kinds: Mapping[str, Signature],
        chosen: Mapping[str, Part],
        seats: Collection[str],
        named: Iterable[str],
    ) -> None:
        self.shelf, self.kinds = shelf, kinds
        self._without: dict[str, list[str]] = {}  # ids without those that are asked about by themselves
        self.names: dict[str, str] = {}
        self._ids = {part.id for part in chosen.values()}
        self._singly: set[str] = set()  # chosen, and asked about by themselves
        self._here: set[str] = set()  # those of them that are chosen for the seats asked about
        self.chosen = {seat: self._known(part, seat in seats) for seat, part in chosen.items()}
        # A part that is asked about by itself does not speak for its like, if another one can.
        others = [own for single in sorted(self._singly) for own in self.ids(self.known(single, here=False))]
        for own in (*named, *others):
            known = self.known(own, here=False)
            if MARK in known and own not in self._singly:
                self.names.setdefault(known, own)

    def known(self, own: str, here: bool = True) -> str:
        """The id by which the engine knows a part of this name; here: in the seats asked about. Empty for no name."""
        if MARK in own:
            return ""
        alike = self._alike(own)
        return own if alike is None or (here and own in self._here) else one_of(alike).id

    def ids(self, known: str, here: bool = True) -> Sequence[str]:
        """All parts of the catalogue that the part with this id of the engine stands for; of a single one itself.

        here: in the seats asked about, where those that are asked about by themselves are none of them.
        """
        alike = self.kinds.get(known)
        if alike is None:
            return (self.name(known),)
        if not here or not self._here:
            return alike.part_ids
        if known not in self._without:
            self._without[known] = [one for one in alike.part_ids if one not in self._here]
        return self._without[known]

    def name(self, known: str) -> str:
        """The name that is told for an id of the engine; what is none of its ids stays as it is."""
        if known in self.names:
            return self.names[known]
        own, mark, _ = known.rpartition(MARK)
        made_here = mark and (known in self.kinds or known in self._ids or self._alike(known.partition(MARK)[0]))
        return self.name(own) if made_here else known

    # --- what is owned and what it costs ---------------------------------------------------------------------

    def owned(self, names: Collection[str]) -> frozenset[str]:
        """What is owned, by the ids of the engine: of those that are alike as the one is that speaks for them."""
        return frozenset(known for known, name in self._known_as(names) if name in names)

    def prices(self, priced: Mapping[str, float]) -> dict[str, float | None]:
        """The same of prices."""
        return {known: priced[name] for known, name in self._known_as(priced) if name in priced}

    def _known_as(self, names: Iterable[str]) -> list[tuple[str, str]]:
        """By id of the engine the name that is told, of these parts and of those that are chosen."""
        ids = {self.known(name, here) for name in names for here in (True, False)}
        return [(own, self.name(own)) for own in sorted(ids | {part.id for part in self.chosen.values()})]

    # --- options ---------------------------------------------------------------------------------------------

    def count(self, option: Option, here: bool = True) -> int:
        """How many parts an option stands for; 0 where all of them are asked about by themselves."""
        return len(self.ids(option.part.id, here))

    def counts(self, options: Iterable[Option], here: bool = True) -> dict[str, int]:
        """How many parts have which verdict; remedies are no matter of the engine's."""
        found = {word: 0 for word in VERDICTS if word != "fits_with"}
        for option in options:
            found[option.verdict] += self.count(option, here)
        return found

    def one_by_one(
        self, option: Option, seats: Sequence[str], owned: Collection[str], priced: Mapping[str, float]
    ) -> list[Option]:
        """The option told of each of the parts that it stands for, in the seats asked about.

        owned, priced: by name. A price is told of those alone that cost as much as the one that speaks for them.
        """
        found, told = [], self.name(option.part.id)
        for own in self.ids(option.part.id):
            part = dataclasses.replace(option.part, id=own, title=self._title(own) or option.part.title)
            board = None if option.board is None else {**option.board, **dict.fromkeys(seats, part)}
            alike = (own in owned, priced.get(own)) == (told in owned, priced.get(told))
            price = option.price if alike else None
            found.append(dataclasses.replace(option, part=part, board=board, owned=own in owned, price=price))
        return found

    def beside(self, option: Option, told: str) -> dict[str, Any]:
        """The title of the part that is told, and those that are like it."""
        own = option.part.id
        ids = self.ids(own if MARK in own else self.known(own))
        others = [own for own in ids[: FIRST + 1] if own != told][:FIRST]
        title = self._title(told) if MARK in own else None
        return {"title": title or option.part.title, "alike": {"count": len(ids) - 1, "parts": others}}

    def _title(self, own: str) -> str | None:
        found = self.shelf.find(own)
        return found[1] if found is not None else None

    def _alike(self, own: str) -> Signature | None:
        found = self.shelf.find(own)
        return found[0] if found is not None else None

    def _known(self, part: Part, here: bool) -> Part:
        """What stands for all that are as a chosen part is; the part itself where it differs from the catalogue's.

        Two parts of one kind that are both chosen keep their names: the second is asked about by itself.
        """
        alike = self._alike(part.id)
        if alike is None or len(alike.part_ids) == 1:
            return part
        one = one_of(alike)
        if _said(part) == _said(one) and self.names.setdefault(one.id, part.id) == part.id:
            return one
        self._singly.add(part.id)
        self._here |= {part.id} if here else set()
        return part


def _said(part: Part) -> tuple[object, ...]:
    """What a part says and on whose word, however it was typed."""
    readings = {name: dataclasses.replace(one, entered="") for name, one in part.readings.items()}
    return part.part_class, readings, part.ports, part.source


def one_of(alike: Signature) -> Part:
    """The part that stands for all that are alike, as the engine knows it."""
    return standing_for(alike.part) if len(alike.part_ids) > 1 else alike.part
