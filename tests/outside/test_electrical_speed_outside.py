"""Electrical speed against synchronous machines."""

import pytest

from fitdb.formulas.electrical_speed import unloaded_electrical_speed


@pytest.mark.parametrize(
    ("hertz", "poles", "shaft_speed"),
    # Synchronous speeds of mains machines, n = 120·f/P: the table of every textbook of electrical machines (Chapman,
    # Electric Machinery Fundamentals, table 3-1).
    [(50, 2, 3000), (50, 4, 1500), (50, 6, 1000), (60, 2, 3600), (60, 4, 1800), (60, 6, 1200), (60, 8, 900)],
)
def test_the_field_turns_with_the_mains(hertz: int, poles: int, shaft_speed: int) -> None:
    # A motor that runs at this speed at one volt: its field turns once a period.
    assert unloaded_electrical_speed(float(shaft_speed), 1.0, poles / 2) == pytest.approx(60 * hertz)
