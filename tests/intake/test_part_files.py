"""Part files: where readings go, what is inherited, and files that would hurt a careless reader."""

from __future__ import annotations

import hashlib
import json
import time
from dataclasses import replace
from types import SimpleNamespace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitdb.intake.part_files import parse_part_document, parse_part_file, signature
from fitdb.model.part import Part
from fitdb.model.problems import Problem
from fitdb.model.reading import Count, Number, Word
from fitdb.model.source import Source


def parsed(catalogue: SimpleNamespace, text: str) -> tuple[tuple[Part, ...], tuple[Problem, ...]]:
    return parse_part_file(text, file_name="part.yaml", **catalogue.keywords)


def one(catalogue: SimpleNamespace, text: str) -> Part:
    parts, problems = parsed(catalogue, text)
    assert problems == ()
    assert len(parts) == 1
    return parts[0]


def codes(catalogue: SimpleNamespace, text: str) -> list[str]:
    parts, problems = parsed(catalogue, text)
    assert parts == ()
    return [problem.code for problem in problems]


def test_readings_find_their_port(catalogue: SimpleNamespace) -> None:
    part = one(
        catalogue,
        """
part:
  id: my-wheel
  class: wheel
  source: caliper
  readings: {outer_diameter: 90 mm, window_width: 9.0 +-0.1 mm, bore: 608, through: yes}
""",
    )
    assert set(part.readings) == {"outer_diameter"}
    assert part.title == "Wheel" and part.source.kind == "caliper"
    core, seat = part.ports["core"], part.ports["seat"]
    assert (core.id, core.kind, core.title) == ("my-wheel.core", "wheel_core", "wheel core of Wheel")
    assert isinstance(core.readings["window_width"], Number)
    assert core.readings["through"].entered == "yes"  # not turned into true on the way
    assert seat.readings["bore"].entered == "608"
    assert core.signature == signature("wheel_core", core.readings)


def test_like_starts_from_the_catalogue(catalogue: SimpleNamespace) -> None:
    part = one(catalogue, "part: {id: mine, like: wheel-90, source: ruler, readings: {window_width: 8 mm}}")
    assert part.part_class == "wheel" and part.title == "Wheel 90"
    assert part.readings == catalogue.wheel.readings
    assert part.ports["seat"] is catalogue.seat  # untouched: still the catalogue's
    core = part.ports["core"]
    assert core.id == "mine.core" and core.signature != catalogue.core.signature
    assert isinstance(core.readings["window_width"], Number) and core.readings["window_width"].low == 7.5
    # A class that is like the wheel may start from a wheel.
    tyre = one(catalogue, "part: {id: mine, class: pneumatic_wheel, like: wheel-90}")
    assert tyre.part_class == "pneumatic_wheel" and tyre.ports["core"] is catalogue.core


def test_unknown_takes_an_inherited_reading_away(catalogue: SimpleNamespace) -> None:
    text = "part: {id: mine, like: wheel-90, readings: {outer_diameter: unknown, window_width: unknown}}"
    part = one(catalogue, text)
    assert part.readings == {}
    assert "window_width" not in part.ports["core"].readings


def test_ports_by_id_inline_or_both(catalogue: SimpleNamespace) -> None:
    part = one(
        catalogue,
        """
parts:
  - id: mine
    class: wheel
    source: caliper
    ports: {core: {like: core-six-20, window_count: 6}, seat: seat-608}
""",
    )
    core = part.ports["core"]
    assert core.readings["window_width"] == catalogue.core.readings["window_width"]
    assert isinstance(core.readings["window_count"], Count)
    assert part.ports["seat"] is catalogue.seat
    # The port may be named by id and one of its readings overridden flat.
    other = one(catalogue, "part: {id: a, class: wheel, source: caliper, ports: {core: core-six-20}, "
                           "readings: {core.window_width: 8 mm}}")  # fmt: skip
    assert other.ports["core"].readings["window_width"].entered == "8 mm"


def test_a_reading_of_several_ports_asks_which(catalogue: SimpleNamespace) -> None:
    parts, problems = parsed(catalogue, "part: {id: a, class: plate, source: caliper, readings: {hole_diameter: 5}}")
    assert parts == () and [problem.code for problem in problems] == ["which_port"]
    assert "front, rear" in problems[0].message and "ports:" in problems[0].hint
    plate = one(catalogue, "part: {id: a, class: plate, source: caliper, ports: {rear: {hole_diameter: 5}}}")
    assert set(plate.ports) == {"rear"}


def test_a_part_without_readings_is_no_fault(catalogue: SimpleNamespace) -> None:
    assert one(catalogue, "part: {id: a, class: wheel}").ports == {}


def test_a_reading_needs_a_source(catalogue: SimpleNamespace) -> None:
    assert codes(catalogue, "part: {id: a, class: wheel, readings: {outer_diameter: 90}}") == ["missing_source"]
    assert one(catalogue, "part: {id: a, class: wheel, readings: {outer_diameter: 90 @caliper}}").readings


def test_one_faulty_part_does_not_hide_the_other(catalogue: SimpleNamespace) -> None:
    text = "parts:\n- {id: a, class: wheel}\n- {id: b, class: weel}\n- {id: a, class: wheel}\n"
    parts, problems = parsed(catalogue, text)
    assert [part.id for part in parts] == ["a"]
    assert [(problem.code, problem.row) for problem in problems] == [("unknown_class", 3), ("duplicate_id", 4)]


@pytest.mark.parametrize(
    ("text", "code", "row", "column"),
    [
        ("part:\n  id: a\n  id: b\n  class: wheel\n", "duplicate_key", 3, "3"),
        ("part:\n  id: a\n class: wheel\n", "not_yaml", 3, "2"),
        ("part:\n\tid: a\n", "not_yaml", 2, "1"),
        ("part: {id: a, class: wheel\n", "not_yaml", 2, "1"),
        ("id: a\nclass: wheel\n", "no_part", 1, "1"),
        ("- id: a\n", "not_a_mapping", 1, "1"),
        ("part: 7\n", "not_a_mapping", 1, "7"),
        ("part: {id: a, class: wheel}\nextra: 1\n", "unknown_key", 2, "1"),
        ("part: {id: a, class: wheel, like: wheel-91}", "unknown_part", 1, "35"),
        ("part: {id: a, like: wheel-90, class: plate}", "like_other_class", 1, "38"),
        ("part: {id: a, class: wheel, ports: {core: core-six-21}}", "unknown_interface", 1, "43"),
        ("part: {id: a, class: wheel, ports: {core: seat-608}}", "interface_of_other_kind", 1, "43"),
        ("part: {id: a, class: wheel, ports: {core: {bore: 8}}}", "unknown_attribute", 1, "44"),
        ("part: {id: a, class: wheel, ports: [core]}", "not_a_mapping", 1, "36"),
        (
            "part:\n  {id: a, class: wheel, source: caliper, ports: {core: {window_width: 9}},\n"
            "   readings: {window_width: 9}}",
            "read_twice", 3, "15",
        ),
        ("part: {id: [a], class: wheel}", "not_text", 1, "12"),
        ("part: {id: a, class: wheel, title: }", "empty", 1, "36"),
        ('part: {id: a, class: wheel, title: "a\\u0007"}', "control_character", 1, "36"),
        ("part: {id: a, class: wheel}\n# \x07\n", "control_character", 2, "3"),
        ("part: &x {id: a, class: wheel}\n", "alias_refused", 1, "7"),
        ("part: !!python/object:os.system {id: a, class: wheel}\n", "tag_refused", 1, "7"),
        ("part: {id: a, class: wheel}\n---\npart: {}\n", "several_documents", 2, "1"),
        ("part: {[a]: 1, id: a, class: wheel}\n", "odd_key", 1, "8"),
        ("", "empty", None, ""),
        ("# nothing\n", "empty", None, ""),
    ],
)  # fmt: skip
def test_faults_with_their_place(
    catalogue: SimpleNamespace, text: str, code: str, row: int | None, column: str
) -> None:
    _, problems = parsed(catalogue, text)
    assert (code, row, column) in [(problem.code, problem.row, problem.column) for problem in problems], problems


def test_nearest_ids_are_named(catalogue: SimpleNamespace) -> None:
    text = "part: {id: a, class: wheel, like: wheel-91, ports: {core: core-six-21}}"
    hints = " ".join(problem.hint for problem in parsed(catalogue, text)[1])
    assert "`wheel-90`" in hints and "`core-six-20`" in hints


HOSTILE = {
    "deep json": "[" * 20_000 + "]" * 20_000,
    "deep mapping": '{"part":' * 20_000,
    "deep yaml": "- " * 20_000 + "a",
    "deep keys": "? " * 20_000,
    "seventeen levels": "{a: " * 17 + "1" + "}" * 17,
    "large": "part: " + "x" * 1_000_001,
    "many values": "[" + "1," * 200_000 + "1]",
    "bomb": "a: &a [x,x,x,x,x,x]\nb: &b [*a,*a,*a,*a,*a,*a]\nc: &c [*b,*b,*b,*b,*b,*b]\npart: [*c,*c,*c,*c]\n",
    "alias as a key": "part: {*a : 1}\n",
    "merge": "part:\n  <<: {id: a}\n  class: wheel\n",
}


@pytest.mark.parametrize(
    ("name", "code"),
    [
        ("deep json", "too_deep"),
        ("deep mapping", "too_deep"),
        ("deep yaml", "too_deep"),
        ("deep keys", "too_deep"),
        ("seventeen levels", "too_deep"),
        ("large", "too_large"),
        ("many values", "too_large"),
        ("bomb", "alias_refused"),
        ("merge", "unknown_key"),
    ],
)
def test_hostile_files_are_refused_quickly(catalogue: SimpleNamespace, name: str, code: str) -> None:
    start = time.perf_counter()
    assert code in codes(catalogue, HOSTILE[name])
    assert time.perf_counter() - start < 5


def test_an_alias_as_a_key_is_refused(catalogue: SimpleNamespace) -> None:
    assert codes(catalogue, HOSTILE["alias as a key"])


def test_decoded_json_that_is_too_deep(catalogue: SimpleNamespace) -> None:
    data: object = 1
    for _ in range(20_000):
        data = [data]
    parts, problems = parse_part_document(data, **catalogue.keywords)
    assert parts == () and [problem.code for problem in problems] == ["too_deep"]


def test_decoded_json_has_pointers(catalogue: SimpleNamespace) -> None:
    readings = {"a/b~c": 1, "max_rpm": 10**5000}
    data = {"parts": [{"id": "a", "class": "wheel", "source": "caliper", "readings": readings}]}
    _, problems = parse_part_document(data, **catalogue.keywords)
    assert [(problem.code, problem.path) for problem in problems] == [
        ("unknown_attribute", "/parts/0/readings/a~1b~0c"),
        ("not_finite", "/parts/0/readings/max_rpm"),
    ]
    assert all(problem.row is None and problem.column == "" for problem in problems)


def test_json_with_tabs_and_characters_beyond_the_plane(catalogue: SimpleNamespace) -> None:
    written = {"part": {"id": "a", "class": "wheel", "title": 'wheel \N{WHEEL} é / "quoted" \\'}}
    for text in (json.dumps(written, indent="\t"), json.dumps(written, separators=(",", ":")), json.dumps(written)):
        assert one(catalogue, text).title == written["part"]["title"]


def test_signature(catalogue: SimpleNamespace) -> None:
    mm = Number(12.65, 12.7, 12.75, "mm", catalogue.wheel.source, "12.7")
    inch = replace(mm, nominal=0.5 * 25.4, entered="1/2 in", source=Source("x", "ruler", "x", "own reading"))
    assert signature("k", {"a": mm}) == signature("k", {"a": inch})
    assert len(signature("k", {"a": mm})) == 64
    word = Word(frozenset({"b", "a"}), catalogue.wheel.source)
    assert signature("k", {"a": mm, "w": word}) == signature("k", {"w": word, "a": mm})
    different = [
        signature("k", {"a": mm}), signature("l", {"a": mm}), signature("k", {"b": mm}), signature("k", {}),
        signature("k", {"a": replace(mm, high=12.76)}), signature("k", {"a": replace(mm, value_assumed=True)}),
        signature("k", {"a": word}), signature("k", {"a": Count((5, 6), 5, catalogue.wheel.source)}),
    ]  # fmt: skip
    assert len(set(different)) == len(different)
    # Kept in databases: the text behind it may not change unnoticed.
    plain = "k\na=size read 12.65 12.7 12.75 mm\nw=word read closed a|b"
    assert signature("k", {"w": word, "a": mm}) == hashlib.sha256(plain.encode()).hexdigest()


LEAVES = st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=12)
KEYS = st.sampled_from(
    ["part", "parts", "id", "class", "like", "source", "readings", "ports", "core", "window_width", "bore"]
)
DOCUMENTS = st.recursive(
    LEAVES, lambda inner: st.lists(inner, max_size=3) | st.dictionaries(KEYS | st.text(max_size=5), inner, max_size=5)
)


@given(data=DOCUMENTS)
def test_no_document_raises(catalogue: SimpleNamespace, data: object) -> None:
    parts, problems = parse_part_document(data, **catalogue.keywords)
    assert parts or problems


@given(text=st.text(alphabet="part:id clswhe{}[]&*!|>'\"-?#\n\t,@%0987", max_size=80) | st.text(max_size=80))
def test_no_text_raises(catalogue: SimpleNamespace, text: str) -> None:
    for start in ("", "part:\n  id: a\n  class: wheel\n  readings:\n    "):
        parts, problems = parsed(catalogue, start + text)
        assert parts or problems
