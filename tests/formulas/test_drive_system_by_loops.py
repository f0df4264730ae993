"""Motors, pack and road once more, in plain Python, one board at a time: every answer of the arrays is checked by it.

Nothing of the module under test is used here but what is checked. Speeds are found by bisection over the balance of
currents, pulls by bisection over the motor current, brakes by walking up the current, stops by small steps of time.
"""

from __future__ import annotations

import functools
import math
import random
from dataclasses import dataclass

import numpy as np
import pytest

from fitdb.formulas import drive_system

G = 9.80665
BOARDS = 200


@dataclass(frozen=True)
class Plain:
    """One board in floats; motors are (count, kt, ohms, idle, ratio, efficiency, radius, amps, braking amps)."""

    motors: tuple[tuple[float, ...], ...]
    volts: float
    resistance: float
    most_amps: float
    charge: float
    fading: float
    most_volts: float
    modulation: float
    efficiency: float
    ceiling: float
    mass: float
    rolling: float
    drag: float
    air: float
    grip: float

    def held(self, speed: float, slope: float = 0.0) -> float:
        angle = math.atan(slope)
        return (
            self.mass * G * (self.rolling * math.cos(angle) + math.sin(angle)) + 0.5 * self.air * self.drag * speed**2
        )

    def pull_of(self, share: float) -> float:
        return sum(n * kt * share * amps * i * eta / r for n, kt, _, _, i, eta, r, amps, _ in self.motors)

    def possible(self, share: float, speed: float) -> bool:
        """Whether volts and amperes allow that share of the motor currents at that speed."""
        if share > 1.0 or speed > self.ceiling:
            return False
        power = 0.0
        for n, kt, ohms, idle, i, _, r, amps, _ in self.motors:
            through = share * amps + idle
            power += n * (kt * speed / r * i + ohms * through) * through
        power /= self.efficiency
        # Volts at the terminals by halving between the peak of the power and the volts at rest.
        if power > self.volts**2 / (4.0 * self.resistance):
            return False
        low, high = self.volts / 2.0, self.volts * (1.0 if power >= 0.0 else 2.0)
        for _ in range(60):
            middle = (low + high) / 2.0
            low, high = (middle, high) if middle * (self.volts - middle) / self.resistance > power else (low, middle)
        if (self.volts - low) / self.resistance > self.most_amps:
            return False
        for _, kt, ohms, idle, i, _, r, amps, _ in self.motors:
            if kt * speed / r * i + ohms * (share * amps + idle) > self.modulation * low:
                return False
        return True

    def top(self, slope: float) -> float:
        low, high = 0.0, 60.0
        for _ in range(50):
            middle = (low + high) / 2.0
            share = self.held(middle, slope) / self.pull_of(1.0)
            low, high = (middle, high) if self.possible(share, middle) else (low, middle)
        return low

    def pull(self, speed: float) -> float:
        if self.possible(1.0, speed):
            return min(self.pull_of(1.0), self.grip)
        low, high = 0.0, 1.0
        for _ in range(50):
            middle = (low + high) / 2.0
            low, high = (middle, high) if self.possible(middle, speed) else (low, middle)
        return min(self.pull_of(low), self.grip)

    @functools.cached_property
    def taken(self) -> float:
        """W that the controllers may be given while braking; the fade by halving over the charge."""
        low, high = 0.0, self.charge
        for _ in range(60):
            middle = (low + high) / 2.0
            at_terminals = self.volts + middle * self.resistance
            left = min(max((self.most_volts - at_terminals) / (self.most_volts - self.fading), 0.0), 1.0)
            low, high = (middle, high) if middle < self.charge * left else (low, middle)
        return low * (self.volts + low * self.resistance) / self.efficiency

    def brake(self, speed: float) -> float:
        """The current goes up until the charge is reached: the first place where it is, or all of it."""

        def arrives(share: float) -> float:
            return sum(
                n * (kt * speed / r * i * share * amps - ohms * (share * amps) ** 2)
                for n, kt, ohms, _, i, _, r, _, amps in self.motors
            )

        # What arrives rises to the share at which half of the volts are lost in the windings, and falls beyond it.
        made = sum(n * kt * speed / r * i * amps for n, kt, _, _, i, _, r, _, amps in self.motors)
        lost = sum(n * ohms * amps**2 for n, _, ohms, _, _, _, _, _, amps in self.motors)
        peak = min(made / (2.0 * lost), 1.0)
        share = 1.0
        if arrives(peak) > self.taken:
            low, high = 0.0, peak
            for _ in range(50):
                middle = (low + high) / 2.0
                low, high = (middle, high) if arrives(middle) < self.taken else (low, middle)
            share = low
        return min(sum(n * kt * share * amps * i / r for n, kt, _, _, i, _, r, _, amps in self.motors), self.grip)

    def stop(self, speed: float, reaction: float) -> float:
        """Explicit midpoint steps of 10 ms."""
        way, step = speed * reaction, 0.01
        while speed > 1e-9:
            slows = (self.brake(speed) + self.held(speed)) / self.mass
            middle = max(speed - 0.5 * step * slows, 0.0)
            slows = (self.brake(middle) + self.held(middle)) / self.mass
            took = min(step, speed / slows)
            way += (speed - 0.5 * took * slows) * took
            speed -= took * slows
        return way


def board(chance: random.Random) -> Plain:
    series = chance.choice((6, 7, 10, 12, 13, 16))
    volts = series * chance.uniform(3.3, 4.2)

    def motor(count: int) -> tuple[float, ...]:
        amps = chance.uniform(15.0, 90.0)
        return (
            count, 9.549296585513721 / chance.uniform(60.0, 280.0), chance.uniform(0.02, 0.15),
            chance.uniform(0.2, 3.0), chance.uniform(1.0, 5.0), chance.uniform(0.9, 1.0),
            chance.uniform(0.035, 0.09), amps, amps * chance.uniform(0.5, 1.0),
        )  # fmt: skip

    motors = (motor(1), motor(1)) if chance.random() < 0.4 else (motor(chance.choice((1, 2, 4))),)
    return Plain(
        motors, volts, chance.uniform(0.03, 0.4), chance.uniform(8.0, 120.0), chance.uniform(2.0, 60.0), 4.15 * series,
        4.22 * series, chance.uniform(0.9, 0.98), chance.uniform(0.93, 0.99),
        chance.choice((1e9, 1e9, chance.uniform(3.0, 12.0))), chance.uniform(40.0, 140.0), chance.uniform(0.01, 0.04),
        chance.uniform(0.3, 0.8), chance.uniform(1.1, 1.3), chance.uniform(80.0, 500.0),
    )  # fmt: skip


@functools.cache
def some_boards() -> list[Plain]:
    chance = random.Random(61)
    return [board(chance) for _ in range(BOARDS)]


def drive_of(plain: Plain) -> drive_system.Drive:
    def one(value: float) -> np.ndarray:
        return np.array([value])

    motors = tuple(
        drive_system.Motors(int(own[0]), *(one(value) for value in own[1:]), one(np.inf)) for own in plain.motors
    )
    supply = drive_system.Supply(
        *(
            one(v)
            for v in (plain.volts, plain.resistance, plain.most_amps, plain.charge, plain.fading, plain.most_volts)
        ),
        *(one(v) for v in (plain.modulation, plain.efficiency, plain.ceiling)),
    )
    return drive_system.Drive(
        motors, supply, drive_system.Road(one(plain.mass), one(plain.rolling), one(plain.drag), one(plain.air))
    )


@pytest.mark.parametrize("slope", [-0.03, 0.0, 0.08, 0.25])
def test_top_speed(slope: float) -> None:
    for plain in some_boards():
        found = float(drive_system.top_speed(drive_of(plain), slope)[0][0])
        assert found == pytest.approx(plain.top(slope), abs=1e-6), plain


def test_pull_at_speed() -> None:
    for plain in some_boards():
        for speed in (0.0, 2.0, 6.0, 11.0):
            found = float(drive_system.driving_force(drive_of(plain), np.array([speed]), plain.grip)[0][0])
            assert found == pytest.approx(plain.pull(speed), rel=1e-6, abs=1e-6), (plain, speed)


def test_brake_at_speed() -> None:
    for plain in some_boards():
        for speed in (1.0, 3.0, 7.0, 12.0):
            found = float(drive_system.braking_force(drive_of(plain), np.array([speed]), plain.grip)[0][0])
            assert found == pytest.approx(plain.brake(speed), rel=1e-6, abs=1e-6), (plain, speed)


def test_way_to_a_stop() -> None:
    """The brake jumps where the windings begin to take all that it makes: so half a percent is borne."""
    for plain in some_boards():
        found = float(drive_system.stopping(drive_of(plain), np.array([8.0]), 1.0, np.array([plain.grip]))[0][0])
        assert found == pytest.approx(plain.stop(8.0, 1.0), rel=5e-3), plain


def test_many_boards_at_once_are_each_as_alone() -> None:
    """All those with one kind of motor laid together as rows of one array."""
    alike = [plain for plain in some_boards() if len(plain.motors) == 1 and plain.motors[0][0] == 2]
    assert len(alike) > 20
    drives = [drive_of(plain) for plain in alike]

    def joined(name: str, part: str) -> np.ndarray:
        whole = [drive.motors[0] if part == "motors" else getattr(drive, part) for drive in drives]
        return np.concatenate([getattr(one, name) for one in whole])

    together = drive_system.Drive(
        (drive_system.Motors(2, *(joined(name, "motors") for name in drive_system.MOTOR_ARRAYS)),),
        drive_system.Supply(*(joined(name, "supply") for name in drive_system.Supply.__slots__)),
        drive_system.Road(*(joined(name, "road") for name in ("mass", "rolling", "drag_area", "density"))),
    )
    assert np.allclose(drive_system.top_speed(together)[0], [plain.top(0.0) for plain in alike], atol=1e-6)
    pulls = drive_system.driving_force(together, np.full(len(alike), 5.0), np.inf)[0]
    alone = [float(drive_system.driving_force(drive, np.array([5.0]))[0][0]) for drive in drives]
    assert np.allclose(pulls, alone, rtol=1e-9)
