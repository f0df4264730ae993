"""Locks of a pulley on its shaft, held against DIN 6885-1, ISO 13050 and worked figures of the trade."""

from __future__ import annotations

import pytest

from fitdb.formulas.limits_and_fits import parallel_key
from fitdb.formulas.pulley_on_shaft import pulley_start, shaft_in_pulley
from fitdb.formulas.shaft_locks import hub_keyway_depth, lock_in_use, root_wall, torque_borne
from fitdb.model.rule import NOTHING_TO_GUARD


@pytest.mark.parametrize("shaft", [8.0, 10.0, 12.0, 17.0])
def test_the_keyway_is_as_deep_as_the_standard_says(shaft: float) -> None:
    key = parallel_key(shaft)  # DIN 6885-1, checked by itself
    assert hub_keyway_depth(key.width) == pytest.approx(key.hub_depth)


def test_the_keyway_grows_with_the_key_and_is_nothing_without_one() -> None:
    depths = [hub_keyway_depth(width / 10) for width in range(0, 71)]
    assert depths == sorted(depths)
    assert hub_keyway_depth(0.0) == hub_keyway_depth(-1.0) == 0.0


@pytest.mark.parametrize(
    # (z·5/π − 1.143)/2 − 2.08 − (bore/2 + 1.4), worked by hand from the ISO 13050 profile and a 3 mm key
    ("teeth", "bore", "wall"),
    [(13, 8.0, 2.29), (14, 10.0, 2.09), (12, 8.0, 1.50), (15, 10.0, 2.89), (12, 10.0, 0.50)],
)
def test_the_wall_over_a_keyway(teeth: int, bore: float, wall: float) -> None:
    assert root_wall(teeth, 5.0, "curvilinear_5", bore, "key", 3.0) == pytest.approx(wall, abs=0.006)


def test_only_a_keyed_bore_loses_metal_to_a_keyway() -> None:
    assert root_wall(12, 5.0, "curvilinear_5", 8.0, "set_screw", 3.0) == pytest.approx(2.90, abs=0.01)


def test_an_unknown_tooth_form_is_refused() -> None:
    with pytest.raises(ValueError, match="no tooth depth"):
        root_wall(14, 5.0, "square_5", 8.0, "key", 3.0)


def test_a_bush_takes_every_other_lock_away() -> None:
    assert lock_in_use("key", "key") == "key_on_key"
    assert lock_in_use("key", "key", ("no",)) == "bush"
    assert torque_borne(4.0, "key", "key", ("no",), "key_on_key") is NOTHING_TO_GUARD
    assert torque_borne(4.0, "key", "key", (), "key_on_key") == 4.0


def test_a_pulley_turned_round_begins_nearer_to_its_belt() -> None:
    # 28 mm long with a 10 mm hub: 18 mm of toothed section, the belt 9 mm from its free end and 19 mm from the hub's.
    assert pulley_start(20.0, 28.0, 10.0, "toward_end") == 11.0
    assert pulley_start(20.0, 28.0, 10.0, "toward_motor") == 1.0
    assert shaft_in_pulley(20.0, 20.0, 28.0, 10.0, "toward_end") == 9.0
    with pytest.raises(ValueError, match="hub side"):
        pulley_start(20.0, 28.0, 10.0, "up")
