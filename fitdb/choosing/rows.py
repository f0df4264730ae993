"""What stands beside each option: its mass, what its board has to spare, how far it is from the part that is there."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

from fitdb.choosing.pages import Values
from fitdb.model.finding import Finding
from fitdb.model.joint import Piece
from fitdb.model.part import Part
from fitdb.model.reading import Number, Reading
from fitdb.moves import distance
from fitdb.possible.answer import Option
from fitdb.possible.snapshot import Snapshot
from fitdb.steps.explain import Display, sentence
from fitdb.steps.explain.sentences import reading_text

MOST_DIFFERENCES = 4


@dataclass
class Beside:
    """Works out what is shown beside the options of one seat.

    seats: those asked about. now: the part that stands there, None where the seat is open.
    """

    snapshot: Snapshot
    seats: tuple[str, ...]
    now: Part | None
    display: Display
    _margins: dict[str, tuple[float, Finding] | None] = field(default_factory=dict)

    def values(self, option: Option, sort: str) -> Values:
        """What the option is sorted by within its verdict; the unknown is None and comes last."""
        price = option.price
        money = None if price is None else price.from_least if price.cheapest is None else price.cheapest
        if sort == "price":
            return (money,)
        if sort == "mass":
            mass = self._mass(option.part)
            return (mass.nominal if mass is not None else None,)
        if sort == "margin":
            margin = self._margin(option)
            return (-margin[0] if margin is not None else None,)
        if sort == "difference":
            return (distance(self.now, option.part) if self.now is not None else None,)
        return (0.0 if option.owned else 1.0, money) if sort == "best" else ()

    def told(self, option: Option) -> dict[str, Any]:
        """The same as plain data."""
        return {
            "current": self.now is not None and self.now.id == option.part.id,
            "mass": self._mass_told(option.part),
            "margin": self._margin_told(option),
            "difference": self._difference(option.part),
        }

    def _mass(self, part: Part) -> Number | None:
        reading = part.readings.get("mass")
        return reading if isinstance(reading, Number) else None

    def _mass_told(self, part: Part) -> dict[str, Any] | None:
        mass, count = self._mass(part), len(self.seats)
        if mass is None:
            return None
        return {
            "low": mass.low * count,
            "nominal": mass.nominal * count,
            "high": mass.high * count,
            "unit": mass.unit,
            "pieces": count,
            "assumed": mass.value_assumed,
            "source": mass.source.title,
        }

    def _margin(self, option: Option) -> tuple[float, Finding] | None:
        """The least that is to spare where this part meets others on its board, as a share of the limit."""
        if option.board is None:
            return None
        if option.part.id not in self._margins:
            pieces = [Piece(seat, part) for seat, part in option.board.items()]
            found: list[tuple[float, str, Finding]] = []
            for joint in self.snapshot.judge.judge(pieces).joints:
                if any(piece.seat in self.seats for some in joint.joint.pieces.values() for piece in some):
                    for finding in joint.findings:
                        if finding.state == "holds" and finding.margin is not None and finding.value is not None:
                            limit = abs(finding.value.nominal - finding.margin.nominal)
                            share = finding.margin.nominal / max(limit, abs(finding.value.nominal), 1e-9)
                            found.append((round(share, 6), finding.rule.id, finding))
            least = min(found, key=lambda one: one[:2], default=None)
            self._margins[option.part.id] = (least[0], least[2]) if least is not None else None
        return self._margins[option.part.id]

    def _margin_told(self, option: Option) -> dict[str, Any] | None:
        margin = self._margin(option)
        if margin is None:
            return None
        share, finding = margin
        return {"share": share, "rule": finding.rule.id, "sentence": sentence(finding, self.display)}

    def _difference(self, part: Part) -> dict[str, Any] | None:
        """How far the part is from the one that stands there, and the readings in which they differ most."""
        if self.now is None or part.id == self.now.id:
            return None
        here, there = dict(_readings(self.now)), dict(_readings(part))
        differing = [name for name in here.keys() & there.keys() if _apart(here[name], there[name])]
        differing.sort(key=lambda name: (-_apart(here[name], there[name]), name))
        return {
            "amount": round(distance(self.now, part), 6),
            "readings": [
                {
                    "reading": name,
                    "now": reading_text(here[name], self.display),
                    "then": reading_text(there[name], self.display),
                }
                for name in differing[:MOST_DIFFERENCES]
            ],
        }


def _readings(part: Part) -> list[tuple[str, Reading]]:
    found = list(part.readings.items())
    for port, interface in part.ports.items():
        found += [(f"{port}.{name}", reading) for name, reading in interface.readings.items()]
    return found


def _apart(here: Reading, there: Reading) -> float:
    low, high = getattr(here, "nominal", None), getattr(there, "nominal", None)
    if low is not None and high is not None:
        return float(min(1.0, abs(low - high) / max(abs(low), 1e-9)))
    possible = getattr(here, "possible", None)
    return float(possible is not None and possible != getattr(there, "possible", None))
