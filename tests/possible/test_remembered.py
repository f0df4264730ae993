"""What one process found out, taken up by another: nothing is asked twice, and nothing is said otherwise."""

from __future__ import annotations

import dataclasses
import json
import os
import random
import subprocess
import sys
import zlib
from collections.abc import Mapping
from pathlib import Path

import pytest
from small_catalogues import Small, small_catalogue
from test_options_by_exhaustion import asked_of, poorer_by_one

from fitdb.catalogue.read import Book
from fitdb.choosing.prepared import prepare
from fitdb.model.part import Part
from fitdb.model.pattern import Pattern
from fitdb.model.problems import Malformed
from fitdb.model.rule import Rulebook
from fitdb.options import Budget, Options, Snapshot, options
from fitdb.possible.questions import CODE, HOLDS
from fitdb.possible.remembered import about, stamp_of
from fitdb.rules import rulebook

PLENTY = Budget(60_000)


def put(small: Small, snapshot: Snapshot, chosen: Mapping[str, Part], asked: str) -> Options:
    return options(
        snapshot.book, snapshot.rules, small.pattern, small.parts_of_class, chosen, asked,
        budget=PLENTY, snapshot=snapshot, whole=small.whole,
    )  # fmt: skip


def verdicts(found: Options) -> dict[str, str]:
    return {one.part.id: one.verdict for one in found.options}


def new(small: Small, book: Book, rules: Rulebook, known: Mapping[str, bytes] | None = None) -> Snapshot:
    return Snapshot(small.pattern, book, rules, dict(book.limits), known=known or {})


@pytest.mark.parametrize("seed", range(10))
def test_the_same_question_is_answered_alike_and_the_judge_of_cells_is_not_asked(
    seed: int, book: Book, rules: Rulebook, by_class: Mapping[str, list[Part]], layout: Pattern
) -> None:
    chance = random.Random(f"remembered {seed}")
    small = small_catalogue(chance, layout, book, by_class, most=6)
    asked, _, chosen = asked_of(chance, small)
    first = new(small, book, rules)
    told = put(small, first, chosen, asked)
    known = first.learned()
    assert known and not first.learned(), "what is kept is handed over once"
    then = new(small, book, rules, known)
    again = put(small, then, chosen, asked)
    assert verdicts(again) == verdicts(told)
    assert (again.broken is None) == (told.broken is None)
    # Whoever knows more from the beginning looks at other boards first, so that a few cells may be new.
    assert then.asking.cells <= 0.2 * first.asking.cells


@pytest.mark.parametrize("seed", range(10))
def test_only_what_is_new_is_asked_when_parts_have_come(
    seed: int, book: Book, rules: Rulebook, by_class: Mapping[str, list[Part]], layout: Pattern
) -> None:
    chance = random.Random(f"more remembered {seed}")
    small = small_catalogue(chance, layout, book, by_class, most=6)
    asked, _, chosen = asked_of(chance, small)
    fewer = poorer_by_one(chance, small, chosen, asked)
    assert fewer is not None
    before = new(fewer, book, rules)
    put(fewer, before, chosen, asked)
    fresh, knowing = new(small, book, rules), new(small, book, rules, before.learned())
    assert verdicts(put(small, knowing, chosen, asked)) == verdicts(put(small, fresh, chosen, asked))
    assert knowing.asking.cells < fresh.asking.cells
    for table in knowing.tables.values():  # whatever is known of parts that are here is what the judge says
        met = [[at for at, part in enumerate(one.parts) if part is not None] for one in table.classes]
        for _ in range(12 if all(met) else 0):
            cell = tuple(chance.choice(some) for some in met)
            known = table.known.of(cell)
            if known:
                finding = table.finding(cell)
                assert known == (HOLDS if finding is None else CODE[finding.state]), table.question.scope.rule.id


def test_what_cannot_be_read_is_asked_again(
    book: Book, rules: Rulebook, by_class: Mapping[str, list[Part]], layout: Pattern
) -> None:
    chance = random.Random("damaged")
    small = small_catalogue(chance, layout, book, by_class, most=5)
    asked, _, chosen = asked_of(chance, small)
    first = new(small, book, rules)
    told = verdicts(put(small, first, chosen, asked))
    known = first.learned()

    def rewritten(some: bytes, **other: object) -> bytes:
        return zlib.compress(json.dumps({**json.loads(zlib.decompress(some)), **other}).encode())

    for spoil in (
        lambda some: some[:-9],
        lambda some: b"",
        lambda some: b"x\x9c nothing of the kind",
        lambda some: rewritten(some, boxes=[[1, [["a"]]]]),
        lambda some: rewritten(some, boxes=[[10**30, []]]),
        lambda some: rewritten(some, doubts=[[[10**9]]]),
        lambda some: rewritten(some, cells=[["0"]], states=[1], told=[None]),
        lambda some: rewritten(some, states=[9 for _ in json.loads(zlib.decompress(some))["states"]]),
    ):
        assert (
            verdicts(put(small, new(small, book, rules, {k: spoil(v) for k, v in known.items()}), chosen, asked))
            == told
        )


def test_a_stamp_is_of_rules_and_attributes_and_answers_are_about_a_layout_and_its_limits(
    book: Book, rules: Rulebook, layout: Pattern
) -> None:
    other_rules = dataclasses.replace(rules, stamp="another")
    key = ("wheel", "outer_diameter")
    wider = dataclasses.replace(book.table.attributes[key], plausible=(1.0, 2.0))
    table = dataclasses.replace(book.table, attributes={**book.table.attributes, key: wider})
    stamps = {
        stamp_of(book, rules),
        stamp_of(book, other_rules),
        stamp_of(dataclasses.replace(book, table=table), rules),
    }
    assert len(stamps) == 3 and all(len(one) <= 80 for one in stamps)
    limits = {**book.limits, "a.limit": 1.0}
    abouts = {about(layout, book.limits), about(layout, limits), about(book.patterns["single_belt"], book.limits)}
    assert len(abouts) == 3


PROGRAM = """
import sys
import zlib
from fitdb.catalogue import read
from fitdb.catalogue.session import open_catalogue
from fitdb.choosing.kept import Snapshots, stored_as
from fitdb.options import Budget, options
from fitdb.rules import rulebook

engine = open_catalogue(sys.argv[1])
with engine.connect() as connection:
    book = read.book(connection)
    kept = Snapshots().of(connection, book, rulebook(), book.patterns["unpowered"], {})
shot = kept.snapshot
options(book, rulebook(), shot.pattern, kept.parts_of_class, {}, "wheel", budget=Budget(60_000), snapshot=shot)
kept.store()
print(*stored_as(shot.pattern, book, rulebook(), shot.limits), shot.asking.cells)
"""


def test_another_process_takes_up_what_one_has_stored(tmp_path: Path) -> None:
    told = []
    for seed in ("1", "2"):  # of the interpreter's own order of sets
        run = subprocess.run(
            [sys.executable, "-c", PROGRAM, f"sqlite:///{tmp_path / 'catalogue.sqlite'}"],
            env={**os.environ, "PYTHONHASHSEED": seed}, capture_output=True, text=True, check=True,
        )  # fmt: skip
        told.append(run.stdout.split())
    (about_first, stamp_first, cells), (about_then, stamp_then, then) = told
    assert (about_first, stamp_first) == (about_then, stamp_then)
    assert int(cells) > 1000 and int(then) < 0.2 * int(cells)
    assert rulebook().stamp[:8] in stamp_first


def test_what_is_prepared_ahead_need_not_be_asked(tmp_path: Path) -> None:
    url = f"sqlite:///{tmp_path / 'catalogue.sqlite'}"
    done = prepare(url, "unpowered", 5.0)
    assert done["boards"] > 0 and done["cells_asked"] > 100
    run = subprocess.run(
        [sys.executable, "-c", PROGRAM, url], env=dict(os.environ), capture_output=True, text=True, check=True
    )
    assert int(run.stdout.split()[-1]) < 0.3 * done["cells_asked"]
    with pytest.raises(Malformed, match="Did you mean `unpowered`"):
        prepare(url, "unpowerd", 1.0)
    with pytest.raises(Malformed, match="cannot be spent"):
        prepare(url, "unpowered", 0.0)
