"""An SVG document read back: its texts with estimated boxes, its lines, its view."""

from __future__ import annotations

import itertools
import xml.etree.ElementTree as ElementTree
from dataclasses import dataclass

SVG = "{http://www.w3.org/2000/svg}"
# Advance widths of letters over their size, Helvetica: Adobe Core 14 font metrics, from memory. Others count as 0.556.
WIDTHS = dict.fromkeys("ijl", 0.222) | dict.fromkeys("f,. tI/[]:;!", 0.278) | dict.fromkeys("r()-", 0.333)
WIDTHS |= dict.fromkeys("cksvxyz", 0.5) | dict.fromkeys("EABKPSVXY&", 0.667) | dict.fromkeys("CDHNRUw", 0.722)
WIDTHS |= dict.fromkeys("GOQ", 0.778) | dict.fromkeys("mM", 0.833) | {"%": 0.889, "W": 0.944, "−": 0.584, "…": 1.0}


@dataclass(frozen=True)
class Words:
    """A text with the box that it takes: capitals rise 0.72 of the size over the base, tails fall 0.2 below it."""

    text: str
    left: float
    top: float
    right: float
    bottom: float

    def overlaps(self, other: Words) -> bool:
        return (
            self.left < other.right and other.left < self.right and self.top < other.bottom and other.top < self.bottom
        )


def root_of(document: str) -> ElementTree.Element:
    """The root; a document that is not well formed raises here."""
    return ElementTree.fromstring(document)


def view_of(root: ElementTree.Element) -> tuple[float, float, float, float]:
    left, top, width, height = (float(number) for number in root.attrib["viewBox"].split())
    return left, top, width, height


def words_of(root: ElementTree.Element) -> list[Words]:
    found = []
    for text in root.iter(f"{SVG}text"):
        size = float(text.get("font-size", root.attrib["font-size"]))
        words = text.text or ""
        width = size * sum(WIDTHS.get(letter, 0.556) for letter in words)
        x, y = float(text.attrib["x"]), float(text.attrib["y"])
        left = x - {"start": 0.0, "middle": 0.5, "end": 1.0}[text.get("text-anchor", "start")] * width
        found.append(Words(words, left, y - 0.72 * size, left + width, y + 0.2 * size))
    return found


def outside_the_view(root: ElementTree.Element) -> list[str]:
    """Texts that leave the view."""
    left, top, width, height = view_of(root)
    return [
        one.text
        for one in words_of(root)
        if one.left < left or one.top < top or one.right > left + width or one.bottom > top + height
    ]


def overlapping(root: ElementTree.Element) -> list[tuple[str, str]]:
    """Pairs of texts that lie on one another."""
    pairs = itertools.combinations(words_of(root), 2)
    return [(one.text, other.text) for one, other in pairs if one.overlaps(other)]


def points_of(element: ElementTree.Element) -> list[tuple[float, float]]:
    pairs = (pair.split(",") for pair in element.attrib["points"].split())
    return [(float(x), float(y)) for x, y in pairs]


def forbidden_in(root: ElementTree.Element) -> list[str]:
    """What a strict page policy would not show: scripts, style, handlers, anything from elsewhere."""
    found = [element.tag for element in root.iter() if element.tag in (f"{SVG}script", f"{SVG}style", f"{SVG}image")]
    for element in root.iter():
        found += [name for name in element.attrib if name == "style" or name.startswith("on") or "href" in name]
    return found
