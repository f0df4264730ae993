"""Bullets by diameter: larger carries more, one between two sizes counts as the smaller."""

from fitdb.formulas.phase_bullets import BULLET_CURRENT_A, bullet_current


def test_each_listed_size_carries_its_own_amperes() -> None:
    assert [bullet_current(size) for size, _ in BULLET_CURRENT_A] == [amperes for _, amperes in BULLET_CURRENT_A]


def test_one_between_two_sizes_counts_as_the_smaller() -> None:
    assert bullet_current(5.0) == bullet_current(4.0)


def test_a_size_nobody_lists_carries_nothing_that_is_known() -> None:
    assert bullet_current(2.0) == 0.0


def test_it_never_falls_with_diameter() -> None:
    carried = [bullet_current(tenths / 10) for tenths in range(10, 90)]
    assert carried == sorted(carried)
