"""Shipped parts with readings said otherwise, for boards of which a test sets or forgets something."""

from __future__ import annotations

from dataclasses import replace

from fitdb.intake.readings import own_source
from fitdb.model.interface import Interface
from fitdb.model.part import Part
from fitdb.model.reading import Number, Reading

SAID = own_source("data_sheet")


def number(value: float, unit: str, spread: float = 0.0) -> Number:
    return Number(value - spread, value, value + spread, unit, SAID)


def with_readings(part: Part, **changed: Reading | None) -> Part:
    """The part with readings of its own, or of whichever port has them, said otherwise (None: unread)."""
    own, ports = dict(part.readings), dict(part.ports)
    for name, reading in changed.items():
        place = part.offers(name)[0]
        target = dict(ports[place].readings) if place else own
        target.pop(name, None)
        if reading is not None:
            target[name] = reading
        if place:
            port = ports[place]
            ports[place] = Interface(port.id, port.kind, port.title, target, "", port.version)
    return replace(part, readings=own, ports=ports)
