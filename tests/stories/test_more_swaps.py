"""Whole swaps of more_swaps.yaml: gear and direct drives, sides and ends that are unlike, straddles, settings, power.

They are told in the catalogue's own words, so a table of seats is all the translation there is. Margins are worked out
from the formula beside them, apart from the engine, and have to agree within 0.1 of their unit or half a per cent. A
test that is listed in DISAGREEMENTS has to fail, and one that passes although it is listed fails.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest
import yaml
from sqlalchemy import Engine
from stories import whole_swap
from stories.swap_formulas import GRAVITY, NAMES, kt
from stories.translation import Target
from stories.whole_swap import Bench, Story, on_the_bench

from fitdb.catalogue import read
from fitdb.model.part import Part
from fitdb.rules import rulebook

AIR_DENSITY, DRAG_AREA, ROLLING = 1.2, 0.55, 0.02  # kg/m³, m² and 1: common practice, no source

# Kind as told -> class, and the seat where such a part stands. What is not listed stands in the seat of its class.
SEATS: dict[str, tuple[str, str]] = {
    "drop_through_deck": ("drop_through_deck", "deck"),
    "tyre_wheel": ("tyre_wheel", "wheel"),
    "multi_kingpin_truck": ("multi_kingpin_truck", "truck"),
    "bushing_set": ("bushing_set", "bushing"),
    "bearing_spacer": ("bearing_spacer", "spacer"),
    "enclosure": ("enclosure", "box"),
    "box_screw": ("box_screw", "screw"),
    "motor_face_plate": ("motor_face_plate", "face_plate"),
    "face_plate_screw": ("motor_screw", "face_plate_screw"),
    "second_pack": ("pack", "pack_2"),
    "second_bms": ("bms", "bms_2"),
    "second_controller": ("controller", "controller_2"),
    "pack_plug": ("power_connector", "pack_plug"),
    "rail_plug": ("power_connector", "rail_plug"),
    "pre_charge_part": ("pre_charge_part", "pre_charge"),
    "front_light": ("light", "light_front"),
    "meter_display": ("meter_display", "meter"),
    "voltage_converter": ("voltage_converter", "converter"),
}

# The names of tests that have to fail, each with its arithmetic.
DISAGREEMENTS: dict[str, str] = {
    "M16 best_allowed": "measure, for the holes that nobody has drawn",
    "M22 J72 packs_in_parallel.rest_volts_are_close": (
        "46.8 − 46.0 = 0.8 V misses the comfort of 0.2 V and keeps the limit of 1.0 V; 0.8/(0.09 + 0.09) = 4.4 A of 16"
    ),
    "M22 as_asked": "fits, with a word of caution, for the same 0.8 V",
    "M22 best_allowed": "fits, with a word of caution, for the same 0.8 V",
    "M22 set pack pack_2 rest_volts found": "nothing fails, so nothing is cured",
}


def steer(axis_angle: float, lean: float) -> float:
    """Steering angle in degrees of a truck of one kingpin: tan δ = tan λ · sin φ (plane geometry)."""
    return math.degrees(math.atan(math.tan(math.radians(axis_angle)) * math.sin(math.radians(lean))))


def steered_corner(height: float, radius: float, y_in: float, half_width: float, lean: float, turned: float) -> float:
    """Upright gap in mm where the inner rim of a wheel, turned by `turned` degrees, comes under the edge of the wood.

    y = y_in·cos δ − R·cos t·sin δ meets the edge at the angle t; there the rim stands R·sin t high (plane geometry).
    """
    delta = math.radians(turned)
    t = math.acos((y_in * math.cos(delta) - half_width) / (radius * math.sin(delta)))
    return height - half_width * math.sin(math.radians(lean)) - radius * math.sin(t)


def speed(kv: float, volts: float, ratio: float, diameter: float) -> float:
    """Unloaded speed in km/h; 0.95 of the pack's volts reach the motor (common practice, no source)."""
    return kv * volts * 0.95 / ratio * math.pi * diameter * 60 / 1e6


def road_load(mass: float, kmh: float) -> float:
    """Rolling and air drag in N on the flat (Newton)."""
    return mass * GRAVITY * ROLLING + AIR_DENSITY / 2 * DRAG_AREA * (kmh / 3.6) ** 2


def pull(motors: float, kv: float, current: float, ratio: float, diameter: float) -> float:
    """Pull at the wheels in N, 0.92 of it through belts (common practice, no source)."""
    return motors * kt(kv) * current * ratio * 0.92 / (diameter / 2000)


def grade(force: float, mass: float) -> float:
    """Slope in per cent on which a pull just holds rider and board (Newton)."""
    return 100 * math.tan(math.asin((force - ROLLING * mass * GRAVITY) / (mass * GRAVITY)))


def consumption(mass: float, kmh: float) -> float:
    """Wh/km on the flat; 0.72 of the pack's energy reaches the road (common practice, no source)."""
    return road_load(mass, kmh) / 3.6 / 0.72


FORMULAS = {
    **NAMES,
    "steer": steer,
    "v_kmh": speed,
    "resist": lambda mass, metres: road_load(mass, metres * 3.6),
    "pull": pull,
    "grade": grade,
    "wh_km": consumption,
    "steered_corner": steered_corner,
    "sin": math.sin,
    "cos": math.cos,
}


class SeatsByKind(dict[str, tuple[str, tuple[str, ...]]]):
    """Class and seats of a kind as told; a class that SEATS does not name stands in the seat of its own name."""

    def __missing__(self, kind: str) -> tuple[str, tuple[str, ...]]:
        part_class, seat = SEATS.get(kind, (kind, kind))
        return part_class, (seat,)


class SizesInOwnWords:
    """Where a told size goes: to the attribute that it is called after, at the port before the dot."""

    def __getitem__(self, kind_and_name: tuple[str, str]) -> tuple[Target, ...]:
        port, _, attribute = kind_and_name[1].rpartition(".")
        return (Target(attribute, port),)

    def get(self, kind_and_name: tuple[str, str], default: tuple[Target, ...] = ()) -> tuple[Target, ...]:
        return self[kind_and_name]


@dataclass(frozen=True)
class Check:
    """One expectation: its name, its story, what is asked (`kind`) and of what."""

    name: str
    story: Story
    kind: str
    of: Mapping[str, Any]


def _stories() -> tuple[Story, ...]:
    text = (Path(__file__).parent / "more_swaps.yaml").read_text(encoding="utf-8")
    return tuple(Story(document) for document in yaml.safe_load_all(text))


def _name(story: Story, finding: Mapping[str, Any]) -> str:
    rules = finding.get("of", finding.get("test", "")).split()
    told = [*rules[:1], *(f"with {own}" for own in finding.get("with", ()))]
    told += [f"without {own}" for own in finding.get("without", ())]
    told += [
        f"{own} {name} {value}" for own, sizes in finding.get("changed", {}).items() for name, value in sizes.items()
    ]
    return " ".join([story.id, finding["joint"], *told, *([finding["line"]] if "line" in finding else [])])


def _checks() -> list[Check]:
    found = []
    for story in _stories():
        found += [Check(f"{story.id} {word}", story, word, {}) for word in ("as_asked", "best_allowed")]
        found += [Check(_name(story, finding), story, "finding", finding) for finding in story.text["findings"]]
        for remedy in story.text["remedies"]:
            meant = remedy.get("part", remedy.get("attribute", ""))
            what = f"{story.id} {remedy['does']} {remedy['at']} {meant}".strip()
            if "preferred" in remedy:
                found.append(Check(f"{what} preferred", story, "preferred", remedy))
            if "fixes" in remedy:
                found.append(Check(f"{what} found", story, "found", remedy))
    return found


CHECKS = _checks()


def _param(check: Check) -> Any:
    listed = pytest.mark.xfail(strict=True, raises=AssertionError, reason=DISAGREEMENTS.get(check.name, ""))
    return pytest.param(check, id=check.name, marks=[listed] if check.name in DISAGREEMENTS else [])


@pytest.fixture(scope="module")
def benches(sqlite_catalogue: tuple[Engine, read.Book, Mapping[str, list[Part]]]) -> Iterator[Mapping[str, Bench]]:
    _, book, shipped = sqlite_catalogue
    with pytest.MonkeyPatch.context() as words:
        words.setattr(whole_swap, "CLASSES", SeatsByKind())
        words.setattr(whole_swap, "SIZES", SizesInOwnWords())
        yield {story.id: on_the_bench(story, book, rulebook(), shipped) for story in _stories()}


@pytest.mark.parametrize("check", [_param(check) for check in CHECKS])
def test_more_swaps(check: Check, benches: Mapping[str, Bench]) -> None:
    bench = benches[check.story.id]
    if check.kind == "as_asked":
        assert bench.verdict.as_asked == check.story.text["as_asked"]
    elif check.kind == "best_allowed":
        assert bench.verdict.complete
        assert bench.verdict.best_allowed == check.story.text["best_allowed"]
    elif check.kind == "finding":
        _finding_agrees(bench, check.of)
    elif check.kind == "preferred":
        best = bench.verdict.cures[0].moves if bench.verdict.cures else ()
        assert any(bench.is_meant(move, check.of) for move in best) == check.of["preferred"]
    else:
        assert any(bench.is_meant(move, check.of) for move in bench.moves_found())


def _finding_agrees(bench: Bench, finding: Mapping[str, Any]) -> None:
    rules = str(finding.get("of", finding.get("test", "")))
    assert bench.state({"test": rules, **finding}) == finding["expect"]
    findings = bench.findings(finding, rules)
    margins = [one.margin for one in findings if one.margin is not None]
    if "margin" in finding:
        least = min(margin.nominal for margin in margins) * float(finding.get("times", 1))
        assert least == pytest.approx(_worked_out(finding["margin"]), rel=0.005, abs=0.1), finding["margin"]
    if "measured" in finding:
        value = min(one.value.nominal for one in findings if one.value is not None)
        assert value == pytest.approx(_worked_out(finding["measured"]), rel=0.005, abs=0.1), finding["measured"]
    if "comfort_missed" in finding:
        assert any(one.comfort_missed for one in findings) == finding["comfort_missed"]


def _worked_out(formula: str) -> float:
    return float(eval(formula, {"__builtins__": {}}, FORMULAS))


def test_every_disagreement_names_a_test() -> None:
    assert not set(DISAGREEMENTS) - {check.name for check in CHECKS}
    assert all(DISAGREEMENTS.values())


def test_names_are_unlike() -> None:
    names = [check.name for check in CHECKS]
    assert len(names) == len(set(names)), sorted(name for name in set(names) if names.count(name) > 1)


def test_most_margins_are_recomputed() -> None:
    findings = [finding for story in _stories() for finding in story.text["findings"]]
    assert sum("margin" in finding or "measured" in finding for finding in findings) * 2 > len(findings)
