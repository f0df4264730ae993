"""Bill: the small parts that a plan of remedies takes, with the neighbouring sizes that are worth buying with them."""

from __future__ import annotations

import bisect
from collections.abc import Mapping, Sequence

from fitdb.model.part import AttributeTable, Part
from fitdb.model.reading import Count, Designation, Number
from fitdb.model.remedy import Move
from fitdb.model.verdict import BillLine

# A size read a little wrong wants the next one: what the trade orders two of. Common practice, no source.
BOUGHT_WITH_NEIGHBOURS = (("belt", "length"), ("deck_bolt", "length"), ("motor_screw", "length"))

Stock = Mapping[tuple[str, str], tuple[float, ...]]


def bill(moves: Sequence[Move], table: AttributeTable, stock: Stock) -> tuple[BillLine, ...]:
    """One line per part that is put in, in the order of the moves; alterations and settings have no part."""
    lines = []
    for move in moves:
        if move.remedy.move in ("insert", "substitute"):
            part = move.pieces[0].part
            attribute, sizes, unit = _neighbours(part, table, stock)
            lines.append(
                BillLine(part.id, part.title, len(move.pieces), move.money, move.where, attribute, sizes, unit)
            )
    return tuple(lines)


def _neighbours(part: Part, table: AttributeTable, stock: Stock) -> tuple[str, tuple[float, ...], str]:
    """The stocked sizes next to the part's own."""
    line = table.line_of(part.part_class)
    for own, attribute in BOUGHT_WITH_NEIGHBOURS:
        reading = part.offers(attribute)[1]
        sizes = stock.get((own, attribute), ())
        if own in line and sizes and isinstance(reading, Number | Designation | Count):
            at = bisect.bisect_left(sizes, reading.nominal - 1e-6)
            beside = [sizes[i] for i in (at - 1, at, at + 1) if 0 <= i < len(sizes)]
            return attribute, tuple(size for size in beside if abs(size - reading.nominal) > 1e-6)[:2], reading.unit
    return "", (), ""
