"""Screws between a motor's face and its mount, held against ISO 261, ASME B1.1 and plain geometry."""

from __future__ import annotations

import pytest

from fitdb.formulas.motor_faces import THREAD_DIAMETERS, screws_in_line, thread_diameter
from fitdb.formulas.threads import THREADS


@pytest.mark.parametrize(
    ("word", "designation"),
    [("m3", "M3"), ("m4", "M4"), ("m5", "M5"), ("m6", "M6"), ("m8", "M8"), ("m10", "M10"), ("unc_8_32", "8-32"),
     ("unf_10_32", "10-32"), ("unf_5_16_24", "5/16-24"), ("unf_3_8_24", "3/8-24")],
)  # fmt: skip
def test_diameters_are_those_of_the_thread_tables(word: str, designation: str) -> None:
    assert thread_diameter(word) == pytest.approx(THREADS[designation].major)
    assert len(THREAD_DIAMETERS) == 11


def test_an_unknown_thread_is_refused() -> None:
    with pytest.raises(ValueError, match="no diameter"):
        thread_diameter("m7")


@pytest.mark.parametrize(("holes", "slots"), [(4, 4), (6, 4), (3, 4), (8, 4), (3, 6), (5, 4)])
def test_screws_in_line_are_the_directions_that_two_even_circles_share(holes: int, slots: int) -> None:
    directions = [{round(360 * i / n, 6) for i in range(n)} for n in (holes, slots)]
    assert screws_in_line(holes, slots, "even", "even") == len(directions[0] & directions[1])


def test_counts_say_nothing_about_uneven_circles() -> None:
    assert screws_in_line(4, 4, "uneven", "even") == 0
