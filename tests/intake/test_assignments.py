"""What is typed as `left=right` on a command line."""

from __future__ import annotations

import pytest

from fitdb.intake.assignments import (
    PartAssignment,
    ReadingAssignment,
    parse_limits,
    parse_parts,
    parse_readings,
)


def test_readings() -> None:
    found, problems = parse_readings(["wheel.window_width=9.0 +-0.1 mm", "wheel.core.form = a=b"])
    assert problems == ()
    assert found == (
        ReadingAssignment("wheel", "", "window_width", "9.0 +-0.1 mm"),
        ReadingAssignment("wheel", "core", "form", "a=b"),
    )


def test_parts_and_limits() -> None:
    assert parse_parts(["spacer=spacer-10", "rear-riser=riser_6"])[0] == (
        PartAssignment("spacer", "spacer-10"),
        PartAssignment("rear-riser", "riser_6"),
    )
    assert parse_limits(["j15.side.low=0,2", "a.b=-1e3"]) == ({"j15.side.low": 0.2, "a.b": -1000.0}, ())


@pytest.mark.parametrize(
    ("parse", "text", "code"),
    [
        (parse_readings, "wheel.window_width", "bad_assignment"),
        (parse_readings, "window_width=9", "bad_assignment"),
        (parse_readings, "a.b.c.d=9", "bad_assignment"),
        (parse_readings, "wheel.window_width=", "bad_assignment"),
        (parse_readings, "=9", "bad_assignment"),
        (parse_readings, "wheel.window_width=" + "9" * 10_001, "too_long"),
        (parse_parts, "spacer", "bad_assignment"),
        (parse_parts, "Spacer!=x", "bad_assignment"),
        (parse_parts, "spacer=Spacer 10", "bad_id"),
        (parse_limits, "a.b=two", "not_a_number"),
        (parse_limits, "a.b=2 mm", "not_a_number"),
        (parse_limits, "a.b=1e999", "not_finite"),
        (parse_limits, "A B=1", "bad_assignment"),
    ],
)
def test_faults(parse: object, text: str, code: str) -> None:
    found, problems = parse([text])  # type: ignore[operator]
    assert not found and [problem.code for problem in problems] == [code]
    assert problems[0].path.endswith("/0")


def test_every_fault_is_found_and_nothing_is_taken_twice() -> None:
    found, problems = parse_readings(["a.b=1", "nonsense", "a.b=2"])
    assert len(found) == 1
    assert [(problem.code, problem.path) for problem in problems] == [
        ("bad_assignment", "/reading/1"),
        ("assigned_twice", "/reading/2"),
    ]
    limits, problems = parse_limits(["a=1", "a=2"])
    assert limits == {"a": 1.0} and [problem.code for problem in problems] == ["assigned_twice"]
