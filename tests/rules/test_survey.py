"""Every worked example of every size that is worked out on the way."""

from __future__ import annotations

from typing import Any

import pytest

from fitdb.model.reading import Outline
from fitdb.rules import rulebook

CASES = [(line, given, wanted) for line in rulebook().survey.values() for given, wanted in line.examples]


@pytest.mark.parametrize(
    ("line", "given", "wanted"), CASES, ids=[f"{line.target} {wanted:g}" for line, _, wanted in CASES]
)
def test_the_size_comes_out_as_printed(line: Any, given: dict[str, Any], wanted: float) -> None:
    assert set(given) <= set(line.needs)
    missing = {need for need in line.needs if need not in given and not need.split(".")[0].endswith("*")}
    assert not missing, f"the example leaves out {missing}"
    constants = {constant.name: constant.value for constant in line.constants}
    assert line.quantity(*[given.get(need, ()) for need in line.needs], **constants) == pytest.approx(wanted, abs=0.006)


@pytest.mark.parametrize("line", rulebook().survey.values(), ids=lambda line: line.target)
def test_a_size_shows_an_example_unless_it_is_a_drawing(line: Any) -> None:
    undrawn = not line.needs and isinstance(line.quantity(), Outline)
    assert line.examples or undrawn or line.target.endswith("outline"), f"{line.target} has no worked example"
