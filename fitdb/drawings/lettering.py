"""Room for words on a drawing: how wide they run, where lines break, and places where no two labels overlap.

Sizes are in the units of the drawing. Widths are estimated from a wide sans-serif face, so that whichever face a viewer
has, the words fit into the room that was kept for them.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

LINE_HEIGHT = 1.2
"""Distance of two lines of words, as a multiple of the letter size."""

# Widths per letter size, a little more than those of a common wide sans-serif face (measured on DejaVu Sans).
_NARROW, _SLIM, _PLAIN, _BROAD, _WIDE = 0.33, 0.44, 0.65, 0.8, 1.02
_CLASSES = dict.fromkeys("iljI|'.,:; \xa0", _NARROW) | dict.fromkeys('frt()[]-/!"¹²³', _SLIM)
_CLASSES |= dict.fromkeys("ABCDGHKNOQRUVXwY+−×=<>&~→←", _BROAD) | dict.fromkeys("MWm%@Ω—…", _WIDE)


@dataclass(frozen=True, slots=True)
class Box:
    """A rectangle with its sides along the axes."""

    left: float
    top: float
    right: float
    bottom: float

    def overlaps(self, other: Box, apart: float = 0.0) -> bool:
        """Whether they share room, or come nearer to each other than `apart`."""
        return (
            self.left < other.right + apart
            and other.left < self.right + apart
            and self.top < other.bottom + apart
            and other.top < self.bottom + apart
        )

    def within(self, other: Box) -> bool:
        return (
            self.left >= other.left
            and self.right <= other.right
            and self.top >= other.top
            and self.bottom <= other.bottom
        )


def text_width(text: str, size: float) -> float:
    """The width that words may take at this letter size; letters outside the table count as wide ones."""
    return size * sum(_CLASSES.get(letter, _PLAIN if letter.isascii() else _BROAD) for letter in text)


def wrapped(text: str, size: float, width: float) -> tuple[str, ...]:
    """The words in lines no wider than `width`; a single word that is wider is broken.

    A no-break space (U+00A0) holds two words together, and so does the space before a per cent sign.
    """
    lines: list[str] = []
    line = ""
    for word in text.replace(" %", "\u00a0%").split(" "):
        longer = f"{line} {word}".strip()
        if text_width(longer, size) <= width:
            line = longer
            continue
        if line:
            lines.append(line)
        line = word
        while text_width(line, size) > width and len(line) > 1:
            fits = max((n for n in range(1, len(line)) if text_width(line[:n], size) <= width), default=1)
            lines.append(line[:fits])
            line = line[fits:]
    return tuple(one.replace("\u00a0", " ") for one in ([*lines, line] if line or not lines else lines))


def spread(wanted: Sequence[float], sizes: Sequence[float], low: float, high: float) -> list[float]:
    """Middles for things of these sizes along one axis, in order, none over another, moved as little as can be.

    `wanted` are the middles they would have alone, rising. Between `low` and `high` as long as they all fit there;
    where they do not, they start at `low`. Source: least squares under order, by pooling neighbours that violate it.
    """
    if not wanted:
        return []
    starts: list[float] = []
    at = 0.0
    for size in sizes:
        starts.append(at + size / 2.0)
        at += size
    pools: list[tuple[float, int]] = []  # mean of wanted − start, how many
    for want, start in zip(wanted, starts, strict=True):
        mean, count = want - start, 1
        while pools and pools[-1][0] > mean:
            before, many = pools.pop()
            mean, count = (before * many + mean * count) / (many + count), many + count
        pools.append((mean, count))
    shifts = [mean for mean, count in pools for _ in range(count)]
    most = max(low, high - at)
    return [min(max(shift, low), most) + start for shift, start in zip(shifts, starts, strict=True)]


def printable(text: str) -> str:
    """The text without what no XML document may hold."""
    return "".join(
        letter if letter >= " " and not "\ud800" <= letter <= "\udfff" and letter not in "\ufffe\uffff" else " "
        for letter in text
    )
