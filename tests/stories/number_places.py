"""Where the engine says a number that an expert names: one table, number by number, whatever the story.

A number stands in a figure of what the board will do, in a size that is worked out on the way, or in what a rule finds.
A factor is such a number on one board over the same on another, a change their difference. Figures are of whole boards:
kinds of parts that drive a board and that a story does not tell are lent to both boards alike (LENT), so that they fall
out of every number asked here.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from stories.whole_swap import Bench, seats_of

from fitdb.board import BoardJudge, Judged
from fitdb.catalogue.read import Book
from fitdb.model.finding import Finding
from fitdb.model.joint import Piece
from fitdb.model.outlook import Outlook
from fitdb.model.rule import AtLeast
from fitdb.ride import worked_out
from fitdb.steps.foresee import foresee
from fitdb.steps.foresee.draws import Draws
from fitdb.steps.survey import trace

Told = Mapping[str, Any]


@dataclass(frozen=True, slots=True)
class Place:
    """Where a number stands. of: id of the figure, size as role.attribute, or rules of which the least counts.

    says: `figure`, `size`, `value` (what a rule measures), or `short` (by how much that misses the comfort limit).
    at: kinds of joints whose roles the size takes. compared: `factor` or `change`, after against before.
    """

    says: str
    of: str
    unit: str
    at: tuple[str, ...] = ()
    compared: str = ""


PLACES: dict[str, Place] = {
    # speed, pull and heat
    "speed factor": Place("figure", "unloaded_speed", "", compared="factor"),
    "pull factor": Place("figure", "pull", "", compared="factor"),
    "torque per ampere factor": Place("size", "motor.shaft_torque", "", ("torque_lock", "belt_pull"), "factor"),
    "winding heat factor": Place("figure", "winding_heat", "", compared="factor"),
    "unloaded speed": Place("figure", "unloaded_speed", "km/h"),
    "pull": Place("figure", "pull", "N"),
    "ratio": Place("figure", "ratio", ""),
    "ratio factor": Place("figure", "ratio", "", compared="factor"),
    "electrical speed": Place("size", "motor.electrical_speed", "rpm", ("electrical_speed",)),
    "shaft torque": Place("value", "torque_lock.set_screw_on_flat_holds", "N_m"),
    "torque on the mount": Place("figure", "mount_torque", "N m"),
    # belt and pulleys
    "centre distance": Place("figure", "belt_centre", "mm"),
    "centre distance change": Place("figure", "belt_centre", "mm", compared="change"),
    "teeth in mesh": Place("size", "belt.teeth_in_mesh", "", ("belt_pull",)),
    "belt pull": Place("figure", "belt_pull", "N"),
    "belt strength factor": Place("figure", "belt_strength", "", compared="factor"),
    "root wall": Place("value", "pulley_bore.root_wall_holds", "mm"),
    "pulley to ground": Place("figure", "pulley_clearance", "mm"),
    "room in the clamp": Place("value", "clamp_profile.clamp_goes_on", "mm"),
    "closing range change": Place("value", "clamp_profile.clamp_grips_its_whole_width", "mm", compared="change"),
    "gear housing to ground": Place("value", "gear_drive.housing_clears_the_ground", "mm"),
    # axle
    "stack on the axle": Place("size", "axle_nut.stack", "mm", ("axle_stack",)),
    "thread beyond the nut": Place("value", "axle_nut.nylon_ring_is_fully_on", ""),
    # deck, trucks, box
    "wood over wheel": Place("figure", "bite_clearance", "mm"),
    "wheel beside wood": Place("figure", "wheel_beside_wood", "mm"),
    "bite angle": Place("figure", "bite_angle", "deg"),
    "height over the trucks change": Place("figure", "end_height", "mm", compared="change"),
    "riser for comfort": Place("short", "wheel_bite.wood_clears_the_wheel", "mm"),
    "tail over nose": Place("value", "ride_height.nose_is_not_low", "mm"),
    "deck sag": Place("figure", "deck_sag", "mm"),
    "rim give at rest": Place("value", "box_flex.rim_follows_at_rest", "mm"),
    "rim give on a bump": Place("value", "box_flex.rim_follows_on_a_bump", "mm"),
    "end slope": Place("value", "steering_under_load.sag_tips_the_axes_little", "deg"),
    "box to ground on a bump": Place("figure", "box_clearance_bump", "mm"),
    # pack, charger, power
    "rated energy": Place("figure", "pack_energy", "Wh"),
    "rated energy factor": Place("figure", "pack_energy", "", compared="factor"),
    "pack resistance": Place("figure", "pack_resistance", "mohm"),
    "pack sag": Place("figure", "pack_sag", "V"),
    "pack power": Place("figure", "pack_power", "W"),
    "charge time": Place("figure", "charge_time", "h"),
    "charge rate": Place("value", "charger_pack.charge_is_gentle", "1/h"),
    "charge volts per cell": Place("figure", "charge_cell_volts", "V"),
    "charger over full pack": Place("value", "charger_pack.never_above_full_volts", "V"),
    "full volts": Place("size", "pack.full_volts", "V", ("rail_volts", "main_fuse", "charger_pack")),
    "asked current": Place("size", "pack.asked_current", "A", ("current_chain", "power_lead")),
    "share of the second pack": Place("figure", "second_pack_share", "percent"),
    "breaking current": Place("value", "main_fuse.breaks_the_short", "A"),
    "fuse current": Place("value", "fuse_current.above_the_asked_current", "A"),
    "charge that cells take": Place("value", "packs_in_parallel.equalising_current_is_borne", "A"),
    "receiver supply in hand": Place("value", "receiver_supply.supply_bears_the_receiver", "A"),
}

# Kinds that drive a board, as a story would tell them; lent to a figure where the story tells none. Common practice, no
# source: what is asked of a figure does not depend on them.
LENT: tuple[Told, ...] = (
    {"id": "lent wheel", "class": "wheel", "role": "given", "attrs": {"outer_dia": "90 +-0 mm"}},
    {
        "id": "lent motor",
        "class": "motor",
        "role": "given",
        "attrs": {"kv": "190 +-0 rpm/V", "resistance": "0.05 +-0 ohm"},
    },
    {"id": "lent drive pulley", "class": "drive pulley", "role": "given", "attrs": {"teeth": "16"}},
    {"id": "lent driven pulley", "class": "driven pulley", "role": "given", "attrs": {"teeth": "36"}},
    {"id": "lent pack", "class": "pack", "role": "given", "attrs": {"series": "10", "parallel": "3"}},
)


@dataclass
class Counting:
    """The boards of one story, all of their lines asked: figures by the open catalogue, joints by the closed table."""

    bench: Bench
    book: Book

    def __post_init__(self) -> None:
        self.whole = self.book.patterns[self.bench.pattern.id]
        self.open = BoardJudge(self.whole, self.book, self.bench.rules, self.book.limits)

    def closed(self, kinds: Sequence[str], seated: Mapping[str, Piece]) -> Judged:
        """A board judged closed: of all lines those of some kinds of joints, whether the story names them or not."""
        lines = tuple(line for line in self.whole.lines if line.kind in kinds)
        pattern = dataclasses.replace(self.whole, lines=lines)
        book = dataclasses.replace(self.bench.book, patterns={pattern.id: pattern})
        return BoardJudge(pattern, book, self.bench.rules, book.limits).judge(seated.values())

    def number(self, told: Told) -> tuple[float, str]:
        """The engine's nominal number for what is told, with its unit."""
        place = PLACES[told["number"]]
        here, unit = self._on(place, told)
        if place.compared:
            there, same = self._on(place, told.get("against", {"before": True}))
            assert unit == same
            return (here / there, "") if place.compared == "factor" else (here - there, unit)
        return here, unit

    def _on(self, place: Place, board: Told) -> tuple[float, str]:
        seated = self.bench.board(board)
        if place.says == "figure":
            return self._figure(place.of, seated)
        if place.says == "size":
            return self._size(place, self.closed(place.at, seated))
        judged = self.closed((place.of.split(".")[0],), seated)
        found = self._findings(place.of, judged, str(board.get("line", "")))
        worst = min(found, key=lambda one: one.margin.nominal if one.margin is not None else 0.0)
        assert worst.value is not None
        if place.says == "short":
            assert isinstance(worst.comfort, AtLeast)
            return worst.comfort.low.value - worst.value.nominal, worst.value.unit
        return worst.value.nominal, worst.value.unit

    def _figure(self, own: str, seated: Mapping[str, Piece]) -> tuple[float, str]:
        value = self.outlook(seated).figures[own].value
        assert value is not None, f"{own} is not told: {self.outlook(seated).figures[own].unknown}"
        return value.nominal, value.unit

    def outlook(self, seated: Mapping[str, Piece]) -> Outlook:
        """What the board will do, with what is lent to it."""
        judged = self.open.judge({**self._lent(seated), **seated}.values())
        sizes = worked_out(judged, self.open)
        return foresee("as_asked", judged.seated, sizes, self.book.table, charts=False)[0]

    def _lent(self, seated: Mapping[str, Piece]) -> dict[str, Piece]:
        lent: dict[str, Piece] = {}
        for told in LENT:
            seats = seats_of(self.open.pattern, told, lent)
            if not any(seat in seated for seat in seats):
                part = self.bench.words.finished(told, {})
                lent |= {
                    seat: Piece(seat, part)
                    for seat in seats
                    if not seat.startswith("front_") or told["class"] == "wheel"
                }
        return lent

    def _size(self, place: Place, judged: Judged) -> tuple[float, str]:
        """The least of a worked-out size over the joints that have its roles."""
        line = self.bench.rules.survey[place.of]
        some = next(iter(self.bench.rules.rules.values()))
        rule = dataclasses.replace(
            some, id=place.of, needs=(place.of,), quantity=_as_it_is, constants=(), unit=line.unit
        )
        takes = {seat.id: seat.classes for seat in self.whole.seats.values()}
        draws, found = Draws(self.bench.book.table), []
        for joint in (one.joint for one in judged.joints if one.joint.line.kind in place.at):
            rows = draws.of_trace(trace(joint, rule, self.bench.rules, self.bench.book.table, takes))
            found += [float(rows[0])] if rows is not None else []
        assert found, f"{place.of} is worked out nowhere on this board"
        return min(found), line.unit

    def _findings(self, rule: str, judged: Judged, line: str) -> list[Finding]:
        found = [
            one
            for joint in judged.joints
            if not line or joint.joint.line.id == line
            for one in joint.findings
            if one.rule.id == rule and one.value is not None
        ]
        assert found, f"{rule} finds nothing on this board"
        return found


def _as_it_is(value: Any) -> Any:
    return value
