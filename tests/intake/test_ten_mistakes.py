"""A part file with ten mistakes gives ten messages at once, each with its row and column, as a person would read it."""

from __future__ import annotations

import copy
from types import SimpleNamespace
from typing import Any

import jsonschema
import pytest

from fitdb.intake.part_files import parse_part_document, parse_part_file, part_file_schema

TEN = """\
part:
  id: My Wheel
  clas: wheel
  class: weel
  source: calliper
  readings:
    outer_diameter: 90 mmm
    window_widht: 9.0
    window_width: 900
    window_count: 6.5
    window_form: rund
    max_rpm: nan
  ports:
    seet: seat-608
"""
# code, row, column, and what a person needs to see
EXPECTED = [
    ("bad_id", 2, 7, "`my-wheel`"),
    ("unknown_key", 3, 3, "`class`"),
    ("unknown_class", 4, 10, "`wheel`"),
    ("unknown_source", 5, 11, "`caliper`"),
    ("unknown_unit", 7, 21, "`mm`"),
    ("unknown_attribute", 8, 5, "`window_width`"),
    ("impossible_value", 9, 19, "between 1 and 40 mm"),
    ("not_whole", 10, 19, "`5|6`"),
    ("unknown_word", 11, 18, "`round`"),
    ("not_finite", 12, 14, "max rpm"),
    ("unknown_port", 14, 5, "`seat`"),
]


def test_all_mistakes_at_once(catalogue: SimpleNamespace) -> None:
    parts, problems = parse_part_file(TEN, file_name="wheel.yaml", **catalogue.keywords)
    assert parts == ()
    assert [(one.code, one.row, one.column) for one in problems] == [(c, r, str(k)) for c, r, k, _ in EXPECTED]
    for problem, (_, _, _, named) in zip(problems, EXPECTED, strict=True):
        assert named in f"{problem.message} {problem.hint}", str(problem)
        assert problem.file == "wheel.yaml"
    assert [one.path for one in problems][:2] == ["/part/id", "/part/clas"]
    assert str(problems[4]) == (
        "wheel.yaml, row 7, column 21, /part/readings/outer_diameter: `mmm` is not a unit that is known here. "
        "Did you mean `mm`? Here one of these is wanted: mm, cm, m, um, in, ft, km, mi, thou."
    )


def test_the_same_mistakes_in_json_have_rows_too(catalogue: SimpleNamespace) -> None:
    text = '{"part": {\n\t"id": "w", "class": "wheel", "source": "caliper",\n\t"readings": {"window_form": "rund"}}}'
    _, problems = parse_part_file(text, file_name="wheel.json", **catalogue.keywords)
    assert [(one.code, one.row, one.column) for one in problems] == [("unknown_word", 3, "30")]


GOOD: dict[str, Any] = {
    "part": {
        "id": "my-wheel",
        "class": "wheel",
        "source": "caliper",
        "readings": {"outer_diameter": "90 mm", "window_width": 9.0, "window_form": "round|oval", "through": True},
        "ports": {"seat": "seat-608"},
    }
}
ACCEPTED: list[dict[str, Any]] = [
    GOOD,
    {"parts": [GOOD["part"], {"id": "other", "like": "wheel-90"}]},
    {"part": {"id": "w", "like": "wheel-90", "source": "ruler", "readings": {"core.window_width": "9 ± 0.1"}}},
    {"part": {"id": "w", "class": "wheel", "readings": {"outer_diameter": "90 @ruler"}}},
    {
        "part": {
            "id": "w", "class": "wheel", "source": "caliper", "title": "Mine",
            "ports": {"core": {"like": "core-six-20", "outline": {"rings": [[[0, 0], [9, 0], [9, 9]]], "spread": 0.2}}},
        }
    },
]  # fmt: skip


def mistyped(change: Any) -> dict[str, Any]:
    document = copy.deepcopy(GOOD)
    change(document["part"])
    return document


MISTYPED: list[tuple[dict[str, Any], str]] = [
    (mistyped(lambda part: part.pop("id")), "missing_key"),
    (mistyped(lambda part: part.pop("class")), "missing_key"),
    (mistyped(lambda part: part.update(id="My Wheel")), "bad_id"),
    (mistyped(lambda part: part.update(clas="wheel")), "unknown_key"),
    (mistyped(lambda part: part.update(readings=["9 mm"])), "not_a_mapping"),
    (mistyped(lambda part: part["readings"].update(window_width=["9"])), "not_a_reading"),
    (mistyped(lambda part: part["readings"].update(window_width=None)), "empty"),
    (mistyped(lambda part: part["readings"].update(window_width={"low": 8})), "not_a_number"),
    (mistyped(lambda part: part.update(ports={"seat": 608})), "unknown_interface"),
    (mistyped(lambda part: part.update(title="")), "empty"),
    ({"prat": GOOD["part"]}, "no_part"),
    ({"parts": []}, "not_a_list"),
]


@pytest.mark.parametrize("document", ACCEPTED)
def test_accepted_files_validate(catalogue: SimpleNamespace, document: dict[str, Any]) -> None:
    parts, problems = parse_part_document(document, **catalogue.keywords)
    assert problems == () and parts
    jsonschema.Draft202012Validator(part_file_schema()).validate(document)


@pytest.mark.parametrize(("document", "code"), MISTYPED)
def test_mistyped_files_fail_the_schema_and_are_told_why(
    catalogue: SimpleNamespace, document: dict[str, Any], code: str
) -> None:
    assert not jsonschema.Draft202012Validator(part_file_schema()).is_valid(document)
    parts, problems = parse_part_document(document, **catalogue.keywords)
    assert parts == () and code in [one.code for one in problems]


def test_the_schema_is_a_schema() -> None:
    jsonschema.Draft202012Validator.check_schema(part_file_schema())
