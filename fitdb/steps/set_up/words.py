"""The lines that are words or things to do: heat, sensors, what two channels have to be to each other.

J61, J62 and J71.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from fitdb.formulas import setting_values as sv
from fitdb.model.finding import Range
from fitdb.model.joint import Piece
from fitdb.model.reading import Word
from fitdb.model.set_up import AS_TOLD, MissingReading, SettingLine
from fitdb.rules.controller_heat.current_suits_the_box import RULE as IN_BOX
from fitdb.rules.electrical_speed.speed_beyond_full_drive_stays_below_the_limit import RULE as BEYOND
from fitdb.rules.motor_current.motor_bears_the_setting import RULE as MOTOR
from fitdb.rules.temperature_sensor.kind_is_as_set import RULE as SENSOR
from fitdb.steps.set_up.lines import set_now
from fitdb.steps.set_up.readings import TRADE, Board, Channels, seat_words

Now = Mapping[str, Piece]


class Heat(NamedTuple):
    id: str
    title: str
    constant: str
    caution: str


HEATS = (
    Heat("motor_heat_fade", "heat of the motor at which power begins to fade", "motor_heat_fade", MOTOR.caution),
    Heat("motor_heat_end", "heat of the motor at which power ends", "motor_heat_end", MOTOR.caution),
    Heat(
        "controller_heat_fade",
        "heat of the controller at which power begins to fade",
        "controller_heat_fade",
        IN_BOX.caution,
    ),
    Heat("controller_heat_end", "heat of the controller at which power ends", "controller_heat_end", IN_BOX.caution),
)
POSITION = {
    "hall": "with_sensors",
    "encoder": "with_sensors",
    "none": "without_sensors",
}


def heat_lines() -> list[SettingLine]:
    """At what heat motor and controller fade and end; common practice, for magnets and solder alike."""
    lines = []
    for heat in HEATS:
        value = sv.practice(heat.constant)
        source = sv.PRACTICE[heat.constant].source
        shown = Range(value, value, value, "°C")
        lines.append(
            SettingLine(heat.id, "heat", heat.title, "°C", AS_TOLD, source, shown, value, caution=heat.caution)
        )
    return lines


def sensor_lines(board: Board, now: Now) -> list[SettingLine]:
    """How the controller finds the rotor, and the kind of temperature sensor, by what each motor has: no default."""
    return [*_position(board, now), *_temperature(board, now)]


def _by_word(board: Board, attribute: str) -> dict[frozenset[str], tuple[list[str], tuple[MissingReading, ...]]]:
    """Motors by the words still possible of one of their readings; none where nobody looked."""
    groups: dict[frozenset[str], tuple[list[str], tuple[MissingReading, ...]]] = {}
    for motor in board.motors():
        read = board.reading(motor, attribute, "sensors")
        possible = read.possible if isinstance(read, Word) else frozenset()
        if len(possible) != 1:
            board.miss(motor, attribute, "sensors")
        entry = groups.get(possible)
        missing = board.taken()
        groups[possible] = ([*(entry[0] if entry else ()), motor], (*(entry[1] if entry else ()), *missing))
    return groups


def _position(board: Board, now: Now) -> list[SettingLine]:
    groups = _by_word(board, "position_sensor")
    present = tuple(set_now(now, board.controllers(), "position_sensing"))
    lines = []
    for possible, (seats, missing) in groups.items():
        mark, of = (f"@{seats[0]}", tuple(seats)) if len(groups) > 1 else ("", ())
        kind = next(iter(possible)) if len(possible) == 1 else ""
        word, notes = POSITION.get(kind, ""), []
        if kind in ("hall", "encoder"):
            notes.append(f"The motor has {'an encoder' if kind == 'encoder' else 'halls'}: set that kind.")
        if kind == "none":
            notes += _without_sensors(board)
        task = "" if word else "Leave it until somebody has looked what the motor has; never take a kind for granted."
        lines.append(
            SettingLine(
                f"position_sensor{mark}",
                "sensors",
                f"how the controller finds the rotor{_whose(of)}",
                "",
                AS_TOLD,
                TRADE,
                word=word,
                task=task,
                now=present,
                missing=missing,
                notes=tuple(notes),
                seats=of,
                caution="The order of the pins has to be metered, whatever the shell: a wrong one kills the sensors.",
            )
        )
    return lines


def _without_sensors(board: Board) -> list[str]:
    told = []
    for seat in board.controllers():
        able = board.reading(seat, "runs_without_sensors")
        if isinstance(able, Word) and able.possible == {"no"}:
            told.append(f"The {seat.replace('_', ' ')} cannot run a motor without sensors: no setting mends that.")
        elif not isinstance(able, Word) or len(able.possible) > 1:
            told.append(f"Read in the data sheet of the {seat.replace('_', ' ')} whether it runs without sensors.")
    return told


def _temperature(board: Board, now: Now) -> list[SettingLine]:
    groups = _by_word(board, "temperature_sensor")
    present = tuple(set_now(now, board.controllers(), "temperature_setting"))
    lines = []
    for possible, (seats, missing) in groups.items():
        mark, of = (f"@{seats[0]}", tuple(seats)) if len(groups) > 1 else ("", ())
        kind = next(iter(possible)) if len(possible) == 1 else ""
        word, notes = {"": "", "none": "not_used"}.get(kind, kind), []
        if kind == "none":
            notes.append("Leave the pin open: this motor has no sensor, and nothing watches its heat. Feel it by hand.")
        task = (
            ""
            if word
            else "Leave the pin open and feel the motor by hand until its kind has been metered; never guess it."
        )
        lines.append(
            SettingLine(
                f"temperature_sensor{mark}",
                "sensors",
                f"kind of temperature sensor{_whose(of)}",
                "",
                AS_TOLD,
                TRADE,
                word=word,
                task=task,
                now=present,
                missing=missing,
                notes=tuple(notes),
                seats=of,
                caution=SENSOR.caution,
            )
        )
    return lines


def _whose(seats: tuple[str, ...]) -> str:
    return f", {seat_words(seats)}" if seats else ""


def task_lines(board: Board, channels: Channels, now: Now) -> list[SettingLine]:
    """What is to be done beside values: measuring the motors, channels alike, no speed beyond what the volts give."""
    present = tuple(set_now(now, board.controllers(), "runs_above_voltage_limit"))
    beyond = SettingLine(
        "beyond_full_drive",
        "speed",
        "running the motors faster than the volts give",
        "",
        AS_TOLD,
        TRADE,
        word="no",
        now=present,
        caution=BEYOND.caution,
        notes=("Leave it switched off until everything else is proven.",),
    )
    measured = SettingLine(
        "self_measurement",
        "together",
        "self-measurement of the motors",
        "",
        AS_TOLD,
        TRADE,
        task="Let every controller measure its motors anew after any change of a motor, lead, sensor or controller: "
        "wheels up, belts off or wheels free to turn, hands away.",
        caution="The wheels turn by themselves while it measures. Wheels up on a firm stand; fingers and laces away.",
    )
    lines = [beyond, measured]
    if channels.used > 1:
        lines += [
            SettingLine(
                "channels_alike",
                "together",
                "all channels",
                "",
                AS_TOLD,
                TRADE,
                task="Set the same values in every channel and in every controller; compare them line by line.",
                caution="One motor that pulls or brakes harder than the other turns the board under you.",
            ),
            SettingLine(
                "directions",
                "together",
                "directions of left and right",
                "",
                AS_TOLD,
                TRADE,
                task="The motors of left and right turn in opposite directions, seen at their shafts. Spin them on the "
                "bench at low current, wheels up: both wheels forward, then both braking.",
                caution="One motor reversed throws the board round on the first pull. Never find out by riding.",
            ),
        ]
    return lines
