"""Sizes that a count of the same part settles: a belt of 56 teeth of 5 mm is 280 mm long, whatever else is written."""

from __future__ import annotations

from dataclasses import dataclass

from fitdb.model.part import AttributeTable, Part
from fitdb.model.reading import Count, Designation, Number


@dataclass(frozen=True, slots=True)
class CountedSize:
    """A size of a part class that equals a count times another size; they disagree from `share` of it on."""

    part_class: str
    size: str
    count: str
    each: str
    share: float


# The pitch line of a synchronous belt is as long as its teeth times their pitch (ISO 5296, ISO 13050). One per cent is
# far more than any belt stretches and less than one tooth in a hundred: beyond it one of the three was misread.
COUNTED_SIZES = (CountedSize("belt", "length", "teeth", "tooth_pitch", 0.01),)


@dataclass(frozen=True, slots=True)
class Contradiction:
    """What does not agree on a part: the attributes, and in words."""

    attributes: tuple[str, ...]
    message: str


def contradictions(part: Part, table: AttributeTable) -> tuple[Contradiction, ...]:
    """Every size of the part that no count still possible agrees with. What nobody read contradicts nothing."""
    line = table.line_of(part.part_class)
    found = []
    for one in COUNTED_SIZES:
        size, count, each = (part.offers(name)[1] for name in (one.size, one.count, one.each))
        if one.part_class not in line or not isinstance(count, Count) or count.value_assumed:
            continue
        if not isinstance(size, Number | Designation) or not isinstance(each, Number | Designation):
            continue
        if size.value_assumed or each.value_assumed:
            continue
        if all(abs(size.nominal - many * each.nominal) > one.share * size.nominal for many in count.values):
            product = count.nominal * each.nominal
            what = (
                f"{part.id} has a {one.size} of {size.nominal:g} {size.unit}, but {count.nominal} {one.count} of "
                f"{each.nominal:g} {each.unit} make {product:g} {size.unit}."
            )
            found.append(Contradiction((one.size, one.count, one.each), what))
    return tuple(found)
