"""Motors, pack and road as one system, against worked examples that others published and against closed forms."""

from __future__ import annotations

import dataclasses
import math

import numpy as np
import pytest
from numpy.typing import NDArray
from scipy.integrate import quad, solve_ivp
from scipy.optimize import brentq

from fitdb.formulas.drive_system import (
    GRIP,
    LIMITS,
    PACK_CURRENT,
    VOLTAGE,
    Drive,
    Motors,
    Road,
    Supply,
    braking_force,
    charge_taken,
    coasting,
    driving_force,
    electrical_power,
    full_pull,
    grip_while_braking,
    grip_while_driving,
    pack_current,
    road_force,
    seconds_to,
    stopping,
    top_speed,
)
from fitdb.formulas.motors import torque_constant

Array = NDArray[np.float64]
NO_LIMIT = np.array([np.inf])
G = 9.80665  # standard gravity, ISO 80000-3


def one(value: float) -> Array:
    return np.array([float(value)])


def road(mass: float = 95.0, rolling: float = 0.015, drag: float = 0.55, air: float = 1.225, wind: float = 0.0) -> Road:
    return Road(one(mass), one(rolling), one(drag), one(air), wind)


def ideal_supply(volts: float, resistance: float = 0.0) -> Supply:
    """A source that nothing limits: controllers without loss, no fade, no setting."""
    top = one(1e9)
    return Supply(one(volts), one(resistance), NO_LIMIT, NO_LIMIT, top, top, one(1.0), one(1.0), NO_LIMIT)


def motors(
    kv: float,
    ohms: float,
    ratio: float,
    diameter_mm: float,
    amps: float,
    *,
    count: int = 1,
    no_load: float = 0.0,
    efficiency: float = 1.0,
    braking: float | None = None,
) -> Motors:
    return Motors(
        count,
        one(torque_constant(kv)),
        one(ohms),
        one(no_load),
        one(ratio),
        one(efficiency),
        one(diameter_mm / 2000.0),
        one(amps),
        one(amps if braking is None else braking),
        NO_LIMIT,
    )


# --- the road --------------------------------------------------------------------------------------------------------


def test_power_of_the_published_cycling_trial() -> None:
    """Martin, Milliken, Cobb, McFadden and Coggan, Journal of Applied Biomechanics 14 (1998) 276: 213.3 W.

    Its abstract was seen; the inputs of its worked sample are from memory: 90 kg, rolling 0.0032, drag area 0.2565 and
    0.0044 m² of the wheels, air 1.2234 kg/m³, grade 0.003, 471.8 m in 56.42 s (8.28 to 8.45 m/s), wind 2.94 m/s 30° off
    the head, bearings (91 + 8.7·v)·v/1000 W, wheels 0.14 kg m² at 0.311 m, chain 0.976.
    """
    speed = 471.8 / 56.42
    trial = road(90.0, 0.0032, 0.2565 + 0.0044, 1.2234, 2.94 * math.cos(math.radians(30.0)))
    held = float(road_force(trial, one(speed), 0.003)[0]) * speed
    bearings = (91.0 + 8.7 * speed) * speed / 1000.0
    gained = 0.5 * (90.0 + 0.14 / 0.311**2) * (8.45**2 - 8.28**2) / 56.42
    assert (held + bearings + gained) / 0.976 == pytest.approx(213.3, abs=0.6)


@pytest.mark.parametrize(
    ("kmh", "newtons", "watts"),
    [(10, 16.57, 46.0), (20, 24.37, 135.4), (25, 30.22, 209.9), (30, 37.37, 311.4), (40, 55.56, 617.4)],
)
def test_road_load_of_a_standing_rider(kmh: float, newtons: float, watts: float) -> None:
    """95 kg, rolling 0.015, drag area 0.55 m², air 1.225 kg/m³ on the flat; worked by hand from Newton's law."""
    force = float(road_force(road(), one(kmh / 3.6))[0])
    assert force == pytest.approx(newtons, abs=0.006)
    assert force * kmh / 3.6 == pytest.approx(watts, abs=0.06)


@pytest.mark.parametrize(("kmh", "watts"), [(20, 547.9), (25, 725.5)])
def test_power_on_eight_percent(kmh: float, watts: float) -> None:
    """The same rider up 8 %; worked by hand."""
    assert float(road_force(road(), one(kmh / 3.6), 0.08)[0]) * kmh / 3.6 == pytest.approx(watts, abs=0.1)


def test_the_speed_at_which_a_hill_drives_as_hard_as_the_air_holds() -> None:
    """Down 10 % it settles at √(2·m·g·(sin θ − c·cos θ)/(ρ·C_dA)) = 15.294 m/s; closed form, worked by hand."""

    def force(speed: float) -> float:
        return float(road_force(road(), one(speed), -0.1)[0])

    assert brentq(force, 1.0, 40.0) == pytest.approx(15.294, abs=1e-3)


def test_rolling_out_in_closed_form_and_by_an_integrator() -> None:
    """v' = −(A + B·v²) from 10 m/s: 43.7233 s and 172.9954 m, atan and logarithm; scipy's solver beside it."""
    assert float(coasting(road(), one(10.0))[0]) == pytest.approx(172.9954, abs=5e-4)

    def slowing(_: float, state: Array) -> list[float]:
        return [state[1], -float(road_force(road(), one(state[1]))[0]) / 95.0]

    def stands(_: float, state: Array) -> float:
        return float(state[1])

    stands.terminal = True  # type: ignore[attr-defined]
    run = solve_ivp(slowing, (0.0, 100.0), [0.0, 10.0], events=stands, rtol=1e-9, atol=1e-9)
    assert run.t_events[0][0] == pytest.approx(43.7233, abs=1e-3)
    assert run.y_events[0][0][0] == pytest.approx(float(coasting(road(), one(10.0))[0]), abs=1e-3)


# --- motors -----------------------------------------------------------------------------------------------------------


def test_an_examined_motor_of_two_volts_at_a_hundred_turns() -> None:
    """Published exam: 2 V at 100 rpm; 0.4 N m takes 2.0944 A."""
    exam = Drive((motors(50.0, 0.01, 1.0, 2000.0, 2.0944),), ideal_supply(12.0), road())
    assert float(full_pull(exam)[0]) == pytest.approx(0.4, abs=1e-5)  # at a radius of one metre


def test_an_examined_motor_between_no_load_and_stall() -> None:
    """Published exam, 12 V, 3800 rpm without load, 30 mN m stalled. At 2500 rpm, worked: 10.263 mN m, 0.3403 A,
    4.084 W taken, 2.687 W at the shaft, 12.06 ohm."""
    kv = 3800.0 / 12.0
    ohms = 12.0 / (0.030 / torque_constant(kv))
    assert ohms == pytest.approx(12.06, abs=0.01)
    stall = 12.0 / ohms
    exam = Drive((motors(kv, ohms, 1.0, 2000.0, stall),), ideal_supply(12.0), road())
    speed = one(2500.0 * 2.0 * math.pi / 60.0)  # m/s at a radius of one metre
    pull, ends = driving_force(exam, speed)
    assert float(pull[0]) == pytest.approx(10.263e-3, abs=2e-6)
    assert LIMITS[int(ends[0])] == "voltage"
    share = pull / full_pull(exam)
    assert float(share[0]) * stall == pytest.approx(0.3403, abs=1e-4)
    power = float(electrical_power(exam, share, speed)[0])
    assert power == pytest.approx(4.084, abs=2e-3)
    assert float(pull[0]) * float(speed[0]) == pytest.approx(2.687, abs=1e-3)
    assert float(pack_current(exam.supply, one(power))[0]) == pytest.approx(0.3403, abs=1e-4)


# --- a whole drive ------------------------------------------------------------------------------------------------


def example(amps: float = 1000.0, resistance: float = 0.0) -> Drive:
    """150 rpm/V at 36.0 V, 15 on 36 teeth, 90 mm, 0.06 ohm, η 0.95, 95 kg; nothing else is lost or limited."""
    return Drive((motors(150.0, 0.06, 2.4, 90.0, amps, efficiency=0.95),), ideal_supply(36.0, resistance), road())


def test_speed_of_a_drive_unloaded() -> None:
    """38.170 km/h = 150·36.0/2.4·π·0.090·60/1000, kinematics: a road that takes nothing shows it."""
    nothing = dataclasses.replace(example(), road=road(1e-9, 0.0, 1e-12))
    speed, ends = top_speed(nothing)
    assert float(speed[0]) * 3.6 == pytest.approx(38.170, abs=1e-3)
    assert int(ends[0]) == VOLTAGE


def test_speed_of_a_drive_under_its_road_load() -> None:
    """37.186 km/h at 15.48 A: the balance of volts, worked by hand with a root finder."""
    speed, ends = top_speed(example())
    assert float(speed[0]) * 3.6 == pytest.approx(37.186, abs=2e-3)
    assert int(ends[0]) == VOLTAGE
    force = float(road_force(road(), speed)[0])
    assert force * 0.045 / 2.4 / 0.95 / torque_constant(150.0) == pytest.approx(15.48, abs=5e-3)


def test_pull_at_forty_amperes() -> None:
    """135.8 N at the ground, 129.0 N after η 0.95; statics, worked by hand."""
    lossless = Drive((motors(150.0, 0.06, 2.4, 90.0, 40.0),), ideal_supply(36.0), road())
    assert float(full_pull(lossless)[0]) == pytest.approx(135.8, abs=0.05)
    assert float(full_pull(example(40.0))[0]) == pytest.approx(129.0, abs=0.05)


def test_the_hill_on_which_forty_amperes_just_creep() -> None:
    """Grade 0.1246 (7.10°) for 129.0 N on 95 kg: just below it the board still moves, just above it stands."""
    assert float(top_speed(example(40.0), 0.1246 - 2e-4)[0][0]) > 0.5
    assert float(top_speed(example(40.0), 0.1246 + 2e-4)[0][0]) == 0.0


def test_time_to_a_speed_is_what_an_integrator_finds() -> None:
    """Newton's law by scipy's quadrature over 1/a(v), with the pull of the motor worked out here once more."""

    def acceleration(speed: float) -> float:
        back = torque_constant(150.0) * speed / 0.045 * 2.4
        amps = min(30.0, (36.0 - back) / 0.06)
        pull = torque_constant(150.0) * amps * 2.4 * 0.95 / 0.045
        held = 95.0 * G * 0.015 + 0.5 * 1.225 * 0.55 * speed * speed
        return min((pull - held) / 95.0, 3.0)

    by_hand = quad(lambda v: 1.0 / acceleration(v), 0.0, 7.0)[0]
    assert float(seconds_to(example(30.0), 7.0, np.inf, 3.0)[0]) == pytest.approx(by_hand, rel=1e-6)


# --- what the trade rides ------------------------------------------------------------------------------------------

# Four builds as the trade quotes them, two motors each: loaded speeds just off the charger and in the middle of the
# pack, pull. Common practice, no source; motor resistance, cells and losses are not quoted with them and are usual ones
# here (60 mohm warm, 20 mohm a cell, 15 mohm of links, 1 A without load, η 0.92, controller 0.97, modulation 0.95).
BUILDS = [
    # S, P, kv, teeth, mm, A, kg, unloaded full, mid, loaded full, mid, N
    (10, 2, 190, 36 / 16, 83, 40, 90, 52.7, 45.2, 46, 40, 201),
    (12, 3, 190, 36 / 15, 90, 50, 97, 64.3, 55.1, 56, 49, 247),
    (12, 4, 170, 40 / 15, 97, 60, 100, 55.8, 47.8, 51, 45, 341),
    (12, 4, 140, 60 / 15, 150, 60, 105, 47.4, 40.6, 44, 38, 402),
]


def build(row: tuple[float, ...], volts_per_cell: float) -> Drive:
    series, parallel, kv, ratio, diameter, amps, mass = row[:7]
    supply = dataclasses.replace(
        ideal_supply(series * volts_per_cell, (series / parallel * 20.0 + 15.0) / 1000.0),
        modulation=one(0.95),
        efficiency=one(0.97),
    )
    two = motors(kv, 0.06, ratio, diameter, amps, count=2, no_load=1.0, efficiency=0.92)
    return Drive((two,), supply, road(mass, 0.02, 0.55, 1.2))


@pytest.mark.parametrize("row", BUILDS)
def test_builds_of_the_trade_reach_what_is_quoted(row: tuple[float, ...]) -> None:
    """Within 6 % of the quoted loaded speeds, which are whole km/h and say nothing of resistances."""
    for volts, loaded in ((4.2, row[9]), (3.6, row[10])):
        assert float(top_speed(build(row, volts))[0][0]) * 3.6 == pytest.approx(loaded, rel=0.06)
    assert float(full_pull(build(row, 3.6))[0]) == pytest.approx(row[11], rel=0.01)


@pytest.mark.parametrize("row", BUILDS)
def test_loaded_over_unloaded_is_about_what_the_trade_counts_with(row: tuple[float, ...]) -> None:
    """0.85 to 0.90 of the unloaded speed just off the charger; common practice, no source; the quoted builds themselves
    reach from 0.87 to 0.93, so that is what is asked, with three hundredths for what is not quoted."""
    unloaded = row[2] * 4.2 * row[0] * 0.95 / row[3] * math.pi * row[4] * 60.0 / 1e6
    assert unloaded == pytest.approx(row[7], rel=0.01)
    share = float(top_speed(build(row, 4.2))[0][0]) * 3.6 / unloaded
    assert 0.85 <= share <= 0.96


# --- braking --------------------------------------------------------------------------------------------------------


def strong_brake(mass: float = 80.0, rolling: float = 0.0, drag: float = 0.0) -> Drive:
    """A motor brake far stronger than any tread, fed into a pack that takes everything."""
    return Drive((motors(50.0, 0.001, 1.0, 100.0, 5000.0),), ideal_supply(50.0), road(mass, rolling, drag))


@pytest.mark.parametrize(
    ("kmh", "slows", "reaction", "metres"),
    [(25, 3.5, 0.0, 6.889), (25, 3.5, 1.0, 13.833), (25, 2.5, 0.0, 9.645), (30, 4.0, 0.0, 8.681)],
)
def test_way_to_a_stop_at_an_even_deceleration(kmh: float, slows: float, reaction: float, metres: float) -> None:
    """v·t + v²/(2·a), worked by hand; 3.5 m/s² is what the German rules for small electric vehicles ask of a brake."""
    way, mean = stopping(strong_brake(), one(kmh / 3.6), reaction, one(80.0 * slows))
    assert float(way[0]) == pytest.approx(metres, abs=2e-3)
    assert float(mean[0]) == pytest.approx(slows, abs=1e-4)


@pytest.mark.parametrize("slope", [-0.05, 0.0, 0.04])
def test_way_to_a_stop_on_a_slope_as_roads_are_laid_out(slope: float) -> None:
    """AASHTO, Policy on Geometric Design: 0.278·V·t + V²/(254·(f + G)), bicycles with t 2.5 s and f 0.25. Its rounded
    factors and its G for sin θ make a few thousandths."""
    kmh, friction = 30.0, 0.25
    aashto = 0.278 * kmh * 2.5 + kmh**2 / (254.0 * (friction + slope))
    way, _ = stopping(strong_brake(), one(kmh / 3.6), 2.5, one(friction * 80.0 * G), slope)
    assert float(way[0]) == pytest.approx(aashto, rel=6e-3)


@pytest.mark.parametrize(("behind", "share_of_g"), [(0.40, 0.20), (0.50, 0.25)])
def test_a_brake_on_the_rear_wheels_alone_ends_at_a_quarter_of_gravity(behind: float, share_of_g: float) -> None:
    """μ·l/(W + μ·h) with μ 0.7, W 0.7 m, h 1.0 m and the centre of mass 0.4 to 0.5 m behind the front axle: 0.20 to
    0.25. Statics; the numbers are common practice, no source."""
    force = grip_while_braking(road(80.0), one(0.7), one(behind / 0.7), one(1.0), one(0.7))
    assert float(force[0]) / (80.0 * G) == pytest.approx(share_of_g, abs=5e-4)


def test_a_driven_axle_never_holds_more_than_the_tread_of_all_the_weight() -> None:
    """With μ·h of the wheelbase or more the other axle lifts: what holds is μ·m·g at most. Coulomb's friction."""
    for friction, height, base in ((0.7, 1.0, 0.7), (1.0, 1.2, 0.5), (0.65, 1.0, 0.75)):
        force = grip_while_driving(road(80.0), one(friction), one(0.62), one(height), one(base), 0.0)
        assert float(force[0]) <= friction * 80.0 * G * (1.0 + 1e-12)


def test_grip_while_driving_is_what_the_balance_of_moments_gives() -> None:
    """Newton and moments about the front axle by a root finder: N_rear = m·g·k + m·a·h/W, F = μ·N_rear = m·a."""
    mass, friction, share, height, base = 85.0, 0.4, 0.45, 0.9, 0.75

    def left_over(force: float) -> float:
        return force - friction * (mass * G * share + force * height / base)

    by_hand = brentq(left_over, 0.0, 5000.0)
    force = grip_while_driving(road(mass), one(friction), one(share), one(height), one(base), 0.0)
    assert float(force[0]) == pytest.approx(by_hand, rel=1e-9)


CHARGE_LIMITED = {
    6: {15: 1.1, 20: 0.94, 30: 0.86},
    12: {15: 2.0, 20: 1.6, 30: 1.3},
    20: {15: 3.1, 20: 2.4, 30: 1.9},
}


@pytest.mark.parametrize("amps", CHARGE_LIMITED)
def test_a_brake_that_the_charge_ends_is_as_weak_as_the_trade_says(amps: int) -> None:
    """97 kg, 46 V; common practice, no source. What is quoted counts with 0.8 from wheel to pack, belt and all.

    Here the belt is left out, which helps a brake, and the windings are counted, which help most where the current is
    greatest: a sixth weaker than quoted at high speed is borne, and a quarter stronger where each motor brakes with
    more than 50 A (20 A of charge at 15 km/h), because a fixed 0.8 does not know of I²·R.
    """
    supply = dataclasses.replace(ideal_supply(46.0), charge=one(amps), efficiency=one(0.97))
    board = Drive((motors(190.0, 0.06, 2.4, 90.0, 90.0, count=2),), supply, road(97.0, 0.02, 0.55, 1.2))
    for kmh, quoted in CHARGE_LIMITED[amps].items():
        speed = one(kmh / 3.6)
        force, ends = braking_force(board, speed)
        slows = float((force + road_force(board.road, speed))[0]) / 97.0
        assert int(ends[0]) == PACK_CURRENT
        each = float(force[0]) * 0.045 / 2.4 / torque_constant(190.0) / 2.0
        assert 0.83 * quoted <= slows <= quoted * (1.26 if each > 50.0 else 1.03), (kmh, slows)


def test_what_a_charge_limited_brake_takes_from_the_wheels_arrives_in_the_pack() -> None:
    """Conservation of energy: power at the wheels, less the heat of the windings, less the controllers' loss."""
    supply = dataclasses.replace(ideal_supply(44.0, 0.1), charge=one(10.0), efficiency=one(0.95))
    board = Drive((motors(190.0, 0.06, 2.4, 90.0, 60.0, count=2),), supply, road(97.0))
    for kmh in (15.0, 20.0, 40.0):
        speed = kmh / 3.6
        force = float(braking_force(board, one(speed))[0][0])
        each = force * 0.045 / 2.4 / torque_constant(190.0) / 2.0
        arrives = 0.95 * (force * speed - 2.0 * 0.06 * each**2)
        assert arrives == pytest.approx(10.0 * (44.0 + 10.0 * 0.1), rel=1e-6)


def test_braking_charge_fades_in_a_straight_line_over_the_volts_at_the_terminals() -> None:
    """Solved by bisection at the terminals: I = I_set·(V_most − V_t)/(V_most − V_fade), V_t = V + I·R. Ohm."""
    set_to, resistance, fades, most = 24.0, 0.1, 49.8, 50.64
    for rest in (45.0, 48.0, 49.0, 50.0, 50.4, 50.64, 51.0):

        def over(amps: float, rest: float = rest) -> float:
            volts = rest + amps * resistance
            return amps - set_to * min(max((most - volts) / (most - fades), 0.0), 1.0)

        by_hand = brentq(over, 0.0, set_to) if over(0.0) < 0.0 else 0.0
        supply = dataclasses.replace(
            ideal_supply(rest, resistance), charge=one(set_to), fading_volts=one(fades), most_volts=one(most)
        )
        assert float(charge_taken(supply)[0]) == pytest.approx(by_hand, abs=1e-9)
    unset = dataclasses.replace(ideal_supply(50.0, 0.1), charge=NO_LIMIT, fading_volts=one(fades), most_volts=one(most))
    assert float(charge_taken(unset)[0]) == pytest.approx((most - 50.0) / 0.1)


def test_a_full_pack_that_takes_nothing_leaves_no_brake() -> None:
    """At the volts where charge has faded out any braking charge is over-voltage: only the road slows the board."""
    supply = dataclasses.replace(
        ideal_supply(50.64, 0.1), charge=one(20.0), fading_volts=one(49.8), most_volts=one(50.64)
    )
    board = Drive((motors(190.0, 0.06, 2.4, 90.0, 60.0),), supply, road())
    assert float(braking_force(board, one(6.0))[0][0]) == 0.0
    way, _ = stopping(board, one(10.0), 0.0, one(np.inf), steps=400)
    assert float(way[0]) == pytest.approx(172.9954, rel=2e-3)


def test_stopping_is_what_an_integrator_finds() -> None:
    """Newton's law over time by scipy, with the charge-limited brake worked out here once more (smaller root)."""
    mass, ohms, kt, ratio, radius, amps = 97.0, 0.06, torque_constant(190.0), 2.4, 0.045, 50.0
    supply = dataclasses.replace(ideal_supply(44.0, 0.1), charge=one(8.0), efficiency=one(0.97))
    board = Drive((motors(190.0, ohms, ratio, 90.0, amps, count=2),), supply, road(mass, 0.02, 0.55, 1.2))
    grip = 200.0

    def brake(speed: float) -> float:
        back, taken = kt * speed / radius * ratio, 8.0 * (44.0 + 0.8) / 0.97
        root = (2.0 * back) ** 2 - 4.0 * 2.0 * ohms * taken
        each = amps if root <= 0.0 else min(amps, (2.0 * back - math.sqrt(root)) / (4.0 * ohms))
        return min(2.0 * kt * each * ratio / radius, grip)

    def slowing(_: float, state: Array) -> list[float]:
        held = mass * G * 0.02 + 0.5 * 1.2 * 0.55 * state[1] ** 2
        return [state[1], -(brake(float(state[1])) + held) / mass]

    def stands(_: float, state: Array) -> float:
        return float(state[1])

    stands.terminal = True  # type: ignore[attr-defined]
    run = solve_ivp(slowing, (0.0, 60.0), [0.0, 10.0], events=stands, rtol=1e-8, atol=1e-8, max_step=0.02)
    way, _ = stopping(board, one(10.0), 0.0, one(grip))
    assert float(way[0]) == pytest.approx(run.y_events[0][0][0], rel=2e-3)
    assert int(braking_force(board, one(2.0), one(grip))[1][0]) == GRIP
