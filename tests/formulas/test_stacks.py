"""Stacks: order does not matter, the nominal lies inside, and a malformed member is named."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitdb.formulas.stacks import stack_range

lengths = st.floats(min_value=0.0, max_value=100.0)
members = st.lists(
    st.tuples(lengths, lengths, lengths, st.sampled_from([1, -1])).map(
        lambda row: (*sorted(row[:3]), row[3]),
    ),
    min_size=1,
    max_size=8,
)


@given(members)
def test_the_nominal_and_the_statistical_range_lie_inside_the_worst_case(
    rows: list[tuple[float, float, float, int]],
) -> None:
    result = stack_range(rows)
    assert result.low - 1e-9 <= result.nominal <= result.high + 1e-9
    assert result.low - 1e-9 <= result.statistical_low <= result.statistical_high <= result.high + 1e-9


@given(members)
def test_turning_every_sign_turns_the_range_about_zero(rows: list[tuple[float, float, float, int]]) -> None:
    forward = stack_range(rows)
    backward = stack_range([(low, nominal, high, -sign) for low, nominal, high, sign in rows])
    assert (backward.low, backward.high) == pytest.approx((-forward.high, -forward.low))
    assert (backward.statistical_low, backward.statistical_high) == pytest.approx(
        (-forward.statistical_high, -forward.statistical_low)
    )


def test_what_is_not_a_stack_is_refused() -> None:
    with pytest.raises(ValueError, match="no members"):
        stack_range([])
    with pytest.raises(ValueError, match="member 1"):
        stack_range([(1.0, 1.0, 1.0, 1), (2.0, 1.0, 3.0, 1)])
    with pytest.raises(ValueError, match="unread length"):
        stack_range([(math.nan, 1.0, 2.0, 1)])
    with pytest.raises(ValueError, match="unread length"):
        stack_range([(-math.inf, 1.0, 2.0, 1)])
    with pytest.raises(ValueError, match="sign"):
        stack_range([(1.0, 1.0, 1.0, 0)])
