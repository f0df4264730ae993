"""Ride figures against published worked examples, and against the same equations solved another way."""

from __future__ import annotations

import math

import pytest
from scipy.integrate import solve_ivp
from scipy.optimize import brentq

from fitdb.formulas import ride
from fitdb.formulas.motors import torque_constant


def test_power_of_the_published_cycling_trial() -> None:
    """Martin, Milliken, Cobb, McFadden and Coggan, Journal of Applied Biomechanics 14 (1998) 276: 213.3 W.

    The worked sample of the paper; its inputs are from memory: 90 kg, rolling 0.0032, drag area 0.2565 and 0.0044 m² of
    the wheels, air 1.2234 kg/m³, grade 0.003, 8.36 m/s on average (8.28 to 8.45 in 56.42 s), wind 2.94 m/s 30° off the
    head, bearings (91 + 8.7·v)·v/1000 W, wheels 0.14 kg m² at 0.311 m, chain 0.976.
    """
    speed, mass = 471.8 / 56.42, 90.0
    head_wind = 2.94 * math.cos(math.radians(30.0))
    ground = ride.road_load(mass, 0.0, 0.0032, 0.0, 0.3) * speed
    # The air is met faster than the ground: the drag at the speed through the air works at the speed over the ground.
    drag = ride.road_load(mass, (speed + head_wind) * 3.6, 0.0, 0.2565 + 0.0044, 0.0, 1.2234) * speed
    bearings = (91.0 + 8.7 * speed) * speed / 1000.0
    gained = 0.5 * (mass + 0.14 / 0.311**2) * (8.45**2 - 8.28**2) / 56.42
    assert (ground + drag + bearings + gained) / 0.976 == pytest.approx(213.3, abs=0.6)


@pytest.mark.parametrize(
    ("kmh", "newtons", "wh_per_km"),
    [(10, 16.57, 4.604), (20, 24.37, 6.770), (25, 30.22, 8.395), (30, 37.37, 10.38), (40, 55.56, 15.43)],
)
def test_road_load_of_a_standing_rider(kmh: float, newtons: float, wh_per_km: float) -> None:
    """95 kg, rolling 0.015, drag area 0.55 m², air 1.225 kg/m³ on the flat; derived by hand from Newton's law."""
    force = ride.road_load(95.0, kmh, 0.015, 0.55, 0.0, 1.225)
    assert force == pytest.approx(newtons, abs=0.006)
    assert ride.consumption_wh_per_km(force, 1.0) == pytest.approx(wh_per_km, abs=0.006)


@pytest.mark.parametrize(("kmh", "watts"), [(20, 547.9), (25, 725.5)])
def test_power_on_eight_percent(kmh: float, watts: float) -> None:
    """The same rider on 8 %; derived by hand."""
    assert ride.road_load(95.0, kmh, 0.015, 0.55, 8.0, 1.225) * kmh / 3.6 == pytest.approx(watts, abs=0.1)


def test_a_board_that_rolls_out_stops_where_the_closed_form_says() -> None:
    """Coast-down a = A + B·v² from 10 m/s: 43.7233 s and 172.9954 m, here by integrating the road load itself."""
    mass = 95.0

    def slowing(_: float, state: list[float]) -> list[float]:
        return [state[1], -ride.road_load(mass, state[1] * 3.6, 0.015, 0.55, 0.0, 1.225) / mass]

    def stands(_: float, state: list[float]) -> float:
        return state[1]

    stands.terminal = True  # type: ignore[attr-defined]
    stands.direction = -1  # type: ignore[attr-defined]
    run = solve_ivp(slowing, (0.0, 100.0), [0.0, 10.0], events=stands, rtol=1e-9, atol=1e-9)
    assert run.t_events[0][0] == pytest.approx(43.7233, abs=1e-3)
    assert run.y_events[0][0][0] == pytest.approx(172.9954, abs=1e-3)


def test_speed_of_a_drive_unloaded_and_loaded() -> None:
    """150 rpm/V at 36.0 V, 15 on 36 teeth, 90 mm: 38.170 km/h unloaded, 37.186 km/h at 15.48 A with 0.06 ohm, η 0.95.

    The second by the balance of volts, V = ω/K_v + I·R, with the current that the road load of 95 kg takes; derived.
    """
    ratio = ride.drive_ratio((15,), (36,), ())
    unloaded = ride.unloaded_speed_kmh(150.0, 36.0, ratio, 90.0, 1.0)
    assert unloaded == pytest.approx(38.170, abs=1e-3)

    def current(kmh: float) -> float:
        wheel_torque = ride.road_load(95.0, kmh, 0.015, 0.55, 0.0, 1.225) * 0.045
        return wheel_torque / ratio / 0.95 / torque_constant(150.0)

    def spare_volts(kmh: float) -> float:
        return 36.0 * (1.0 - kmh / unloaded) - current(kmh) * 0.06

    loaded = brentq(spare_volts, 1.0, unloaded)
    assert loaded == pytest.approx(37.186, abs=2e-3)
    assert current(loaded) == pytest.approx(15.48, abs=5e-3)


def test_pull_and_hill_at_forty_amperes() -> None:
    """The same drive: 135.8 N at the ground, 129.0 after η 0.95, and a hill of 12.46 %; derived."""
    assert ride.wheel_pull((150.0,), 40.0, "block", 2.4, 90.0, 1.0) == pytest.approx(135.8, abs=0.05)
    after = ride.wheel_pull((150.0,), 40.0, "block", 2.4, 90.0, 0.95)
    assert after == pytest.approx(129.0, abs=0.05)
    assert ride.grade_percent(after, 95.0, 0.015) == pytest.approx(12.46, abs=0.05)


@pytest.mark.parametrize(("diameter", "rollout"), [(83, 260.8), (90, 282.7), (97, 304.7), (107, 336.2), (150, 471.2)])
def test_way_of_one_turn(diameter: float, rollout: float) -> None:
    """One turn rolls π·D: at 1 rpm per volt, 1 V and no gearing the speed is that way per minute."""
    speed = ride.unloaded_speed_kmh(1.0, 1.0, 1.0, diameter, 1.0)
    assert speed * 1e6 / 60.0 == pytest.approx(rollout, abs=0.05)


def test_way_to_a_stop() -> None:
    """v²/(2a): 6.889 m from 25 km/h at 3.5 m/s², 13.83 with a second of reaction; derived.

    AASHTO, A Policy on Geometric Design of Highways and Streets, has the form 0.278·V·t + V²/(254·a/g), 0.039·V²/a:
    the same with rounded factors.
    """
    assert ride.stopping_distance(25.0, 3.5, 0.0) == pytest.approx(6.889, abs=1e-3)
    assert ride.stopping_distance(25.0, 3.5, 1.0) == pytest.approx(13.83, abs=5e-3)
    assert ride.stopping_distance(25.0, 2.5, 0.0) == pytest.approx(9.645, abs=1e-3)
    assert ride.stopping_distance(100.0, 3.4, 2.5) == pytest.approx(0.278 * 100 * 2.5 + 0.039 * 100**2 / 3.4, rel=0.01)


def test_static_safety_of_a_608_bearing() -> None:
    """ISO 76, from memory: s₀ = C₀/P₀. A 608 of 1.37 kN with 685 N on it has 2.0."""
    mass = 685.0 / 9.80665
    assert ride.static_safety(1.37, mass, 1.0, 1.0) == pytest.approx(2.0)
