"""Round things through an opening side by side: wires and leads in a hole, a rectangular window or a slot.

Lengths in millimetres. Diameters are outside diameters as they lie, with whatever play is wanted already added.

``goes`` is a proof: centres found, checked in exact arithmetic, or a published arrangement. ``cannot`` is a proof:
a bound below which no arrangement exists. In between the answer is ``undecided``: a search that finds nothing has
proved nothing.
"""

from __future__ import annotations

import math
import random
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Any, Literal

Answer = Literal["goes", "cannot", "undecided"]
Centre = tuple[float, float]


@dataclass(frozen=True)
class RatioEntry:
    """Hole diameter over wire diameter for ``count`` equal circles. ``proved``: nothing smaller exists; otherwise it
    is the smallest known. Without a closed form ``ratio`` is the published figure's last digit rounded up, and the true
    one lies at most ``rounded_by`` below it."""

    count: int
    ratio: float
    proved: bool
    source: str
    rounded_by: float = 0.0


# Published table of equal circles in a circle. 1 to 13 and 19: Kravitz, Math. Magazine 40 (1967) 65-71, with the proofs
# named. 14 to 18 and 20: best known, from memory of the same table.
EQUAL_CIRCLES: tuple[RatioEntry, ...] = (
    RatioEntry(1, 1.0, True, "one circle"),
    RatioEntry(2, 2.0, True, "two diameters in a row"),
    RatioEntry(3, 1 + 2 / math.sqrt(3), True, "Graham 1968"),
    RatioEntry(4, 1 + math.sqrt(2), True, "Graham 1968"),
    RatioEntry(5, 1 + math.sqrt(2 * (1 + 1 / math.sqrt(5))), True, "Graham 1968"),
    RatioEntry(6, 3.0, True, "Graham 1968"),
    RatioEntry(7, 3.0, True, "Graham 1968"),
    RatioEntry(8, 1 + 1 / math.sin(math.pi / 7), True, "Pirl 1969"),
    RatioEntry(9, 1 + math.sqrt(2 * (2 + math.sqrt(2))), True, "Pirl 1969"),
    RatioEntry(10, 3.81302564, True, "Pirl 1969; OEIS A281115", 1e-8),
    RatioEntry(11, 1 + 1 / math.sin(math.pi / 9), True, "Melissen 1994"),
    RatioEntry(12, 4.0297, True, "Fodor 2000", 1e-4),
    RatioEntry(13, 2 + math.sqrt(5), True, "Fodor 2003"),
    RatioEntry(14, 4.3285, False, "from memory", 1e-4),
    RatioEntry(15, 1 + math.sqrt(6 + 2 / math.sqrt(5) + 4 * math.sqrt(1 + 2 / math.sqrt(5))), False, "from memory"),
    RatioEntry(16, 4.6155, False, "from memory", 1e-4),
    RatioEntry(17, 4.7921, False, "from memory", 1e-4),
    RatioEntry(18, 1 + math.sqrt(2) + math.sqrt(6), False, "from memory"),
    RatioEntry(19, 1 + math.sqrt(2) + math.sqrt(6), True, "Fodor 1999"),
    RatioEntry(20, 5.1224, False, "from memory", 1e-4),
)
TABLE_END = len(EQUAL_CIRCLES)
# Relative noise of floats in the closed forms; never decides a margin anybody can measure.
NOISE = 1e-12


@dataclass(frozen=True)
class Bundle:
    """The answer for a bundle in an opening. ``code`` is a stable word, ``why`` one sentence with numbers. ``centres``
    are in the order of the diameters asked, from the middle of the opening, and empty unless an arrangement
    was worked out (a table entry has none)."""

    answer: Answer
    code: str
    why: str
    centres: tuple[Centre, ...] = ()


# --- equal circles in a hole -----------------------------------------------------------------------------------


def hole_needed(count: int, diameter: float) -> float:
    """Smallest known round hole, mm, for ``count`` wires of ``diameter`` mm side by side: table ratio × diameter.

    It is proved to be the smallest for 1 to 13 and 19. Raises ValueError outside 1 to 20 (beyond it ask
    ``bundle_in_hole``).
    """
    if not 1 <= count <= TABLE_END:
        raise ValueError(
            f"hole_needed: count is {count}; the table runs from 1 to {TABLE_END}, beyond it ask bundle_in_hole."
        )
    _check_positive("hole_needed: diameter", diameter)
    return EQUAL_CIRCLES[count - 1].ratio * diameter


def hole_proved(count: int, diameter: float) -> float:
    """A hole, mm, below which ``count`` equal wires of ``diameter`` mm certainly do not go side by side.

    The table where it is proved (less its rounding); else the last proved entry before it (fewer wires need no
    more), or the bound of Oler, Acta Math. 105 (1961) 19-48, on points a distance d apart in a convex region of area
    A and perimeter P: count <= 2 A / (sqrt(3) d²) + P / (2 d) + 1, for the disc the centres lie in. From memory.
    """
    _check_count("hole_proved: count", count)
    _check_positive("hole_proved: diameter", diameter)
    proved = max(entry.ratio - entry.rounded_by for entry in EQUAL_CIRCLES if entry.proved and entry.count <= count)
    # 2 pi rho² / sqrt(3) + pi rho + 1 >= count, for the centres' disc of radius rho, in diameters
    a, b, c = 2 * math.pi / math.sqrt(3), math.pi, 1.0 - count
    rho = (-b + math.sqrt(b * b - 4 * a * c)) / (2 * a)
    return max(proved, 1 + 2 * rho) * diameter


# --- a bundle in a round hole ----------------------------------------------------------------------------------


def bundle_in_hole(diameters: Sequence[float], hole: float, starts: int = 40, seed: int = 0) -> Bundle:
    """Do wires of these ``diameters``, mm, lie side by side in a round ``hole``, mm?

    starts: how many arrangements the search begins from; a fixed count from a fixed ``seed``, so the same question
            gets the same answer.
    Raises ValueError for no wires, a size that is not positive and finite, or starts < 0.
    """
    _check_diameters("bundle_in_hole", diameters)
    _check_positive("bundle_in_hole: hole", hole)
    _check_starts("bundle_in_hole", starts)
    count, largest = len(diameters), max(diameters)
    needed, reason = _hole_bound(diameters)
    what = f"{count} wire(s) of {_list_of(diameters)} mm"
    if hole < needed * (1 - NOISE):
        return Bundle("cannot", reason, f"{what} need a hole of at least {needed:.2f} mm; this one is {hole:.2f} mm.")
    if count <= 3 and hole >= needed * (1 - NOISE):
        return Bundle("goes", "closed_form", f"{what} need a hole of {needed:.2f} mm; this one is {hole:.2f} mm.")
    if count <= TABLE_END and hole >= hole_needed(count, largest) * (1 - NOISE):
        return Bundle(
            "goes",
            "published_table",
            f"{count} wires of the largest diameter, {largest:.2f} mm, need a hole of "
            f"{hole_needed(count, largest):.2f} mm; this one is {hole:.2f} mm.",
        )
    centres = _search(diameters, _Disc(hole / 2), starts, seed)
    return _searched(what, f"a hole of {hole:.2f} mm", centres, needed)


def _hole_bound(diameters: Sequence[float]) -> tuple[float, str]:
    """The largest of: the largest wire; the two largest in a row; the three largest; the areas; and for every k,
    the k largest, each at least as thick as the thinnest of them. With the code word of the one that binds."""
    falling = sorted(diameters, reverse=True)
    bounds = [(falling[0], "largest_wire")]
    if len(falling) > 1:
        bounds.append((falling[0] + falling[1], "two_largest"))
    if len(falling) > 2:
        bounds.append((three_circle_hole(falling[0], falling[1], falling[2]), "three_largest"))
        bounds.append((math.sqrt(math.fsum(d * d for d in falling)), "area"))
        bounds += [(hole_proved(k, falling[k - 1]), "equal_wires") for k in range(4, len(falling) + 1)]
    return max(bounds, key=lambda bound: bound[0])


def three_circle_hole(first: float, second: float, third: float) -> float:
    """Diameter of the smallest hole for three circles of these diameters, mm.

    The two largest in a row, if the third is no larger than what fits in the gap they leave (radius
    r1 r2 (r1 + r2) / (r1² + r1 r2 + r2²)); otherwise the circle that touches all three while they touch one
    another: 1/R = 2 sqrt(k1 k2 + k2 k3 + k3 k1) - k1 - k2 - k3 with curvatures k = 1/r (Descartes' circle theorem).
    """
    for size in (first, second, third):
        _check_positive("three_circle_hole: diameter", size)
    r1, r2, r3 = sorted((first / 2, second / 2, third / 2), reverse=True)
    if r3 <= r1 * r2 * (r1 + r2) / (r1 * r1 + r1 * r2 + r2 * r2):
        return 2 * (r1 + r2)
    k1, k2, k3 = 1 / r1, 1 / r2, 1 / r3
    return 2 / (2 * math.sqrt(k1 * k2 + k2 * k3 + k3 * k1) - k1 - k2 - k3)


def one_by_one_margin(diameters: Sequence[float], opening: float) -> float:
    """How much wider, mm, the opening is at its narrowest than the largest wire: what decides when wires are passed
    one at a time and do not stay there together. Negative: that wire does not pass."""
    _check_diameters("one_by_one_margin", diameters)
    _check_positive("one_by_one_margin: opening", opening)
    return opening - max(diameters)


# --- a bundle in a window or a slot ----------------------------------------------------------------------------


def zigzag_length(count: int, diameter: float, width: float) -> float:
    """Shortest rectangle, mm, of ``width`` mm for ``count`` equal circles in zigzag: d + (n - 1) sqrt(d² - (w - d)²).

    For d <= width <= d (1 + sqrt(3)/2). Shortest because two centres are at most width - d apart across, so taken in
    order along the length each is at least that root further on (Füredi, "The densest packing of equal circles into
    a parallel strip", Discrete Comput. Geom. 6 (1991) 95-106, from memory). Raises ValueError outside that range.
    """
    _check_count("zigzag_length: count", count)
    _check_positive("zigzag_length: diameter", diameter)
    if not _zigzag_applies(diameter, width):
        raise ValueError(
            f"zigzag_length: width is {width!r} mm; for circles of {diameter:g} mm the zigzag holds from "
            f"{diameter:g} to {diameter * (1 + math.sqrt(3) / 2):.4f} mm. Ask bundle_in_window for other widths."
        )
    return diameter + (count - 1) * math.sqrt(max(diameter**2 - (width - diameter) ** 2, 0.0))


def bundle_in_window(
    diameters: Sequence[float],
    length: float,
    width: float,
    round_ends: bool = False,
    starts: int = 40,
    seed: int = 0,
) -> Bundle:
    """Do wires of these ``diameters``, mm, lie side by side in a window of ``length`` × ``width`` mm?

    round_ends: the window is a slot with half-round ends; ``length`` is then over all. Arguments ``starts`` and
    ``seed`` and the errors are those of ``bundle_in_hole``.
    """
    _check_diameters("bundle_in_window", diameters)
    _check_positive("bundle_in_window: length", length)
    _check_positive("bundle_in_window: width", width)
    _check_starts("bundle_in_window", starts)
    long, short = max(length, width), min(length, width)
    kind = "slot" if round_ends else "window"
    opening = f"a {kind} of {long:.2f} × {short:.2f} mm"
    what = f"{len(diameters)} wire(s) of {_list_of(diameters)} mm"
    refusal = _window_refusal(sorted(diameters, reverse=True), long, short, round_ends)
    if refusal is not None:
        code, need = refusal
        return Bundle("cannot", code, f"{what} do not go into {opening}: {need}.")
    in_a_row = math.fsum(diameters)
    if in_a_row <= long * (1 + NOISE):
        return Bundle("goes", "in_a_row", f"{what} lie in one row of {in_a_row:.2f} mm in {opening}.")
    if len(diameters) == 2:
        return Bundle("goes", "closed_form", f"{what} lie corner to corner in {opening}.")
    largest = max(diameters)
    if not round_ends and _zigzag_applies(largest, short):
        zigzag = zigzag_length(len(diameters), largest, short)
        if zigzag <= long * (1 + NOISE):
            return Bundle("goes", "zigzag", f"{what} lie in zigzag in {zigzag:.2f} mm of {opening}.")
    shape = _Slot(long / 2, short / 2) if round_ends else _Window(long / 2, short / 2)
    turned = length < width
    centres = _search(diameters, shape, starts, seed)
    if centres is not None and turned:
        centres = tuple((y, x) for x, y in centres)
    return _searched(what, opening, centres, None)


def _zigzag_applies(diameter: float, width: float) -> bool:
    return diameter <= width <= diameter * (1 + math.sqrt(3) / 2)


def _window_refusal(falling: list[float], long: float, short: float, round_ends: bool) -> tuple[str, str] | None:
    """A slot lies inside its rectangle, so what refuses the rectangle refuses the slot."""
    if falling[0] > short * (1 + NOISE):
        return "largest_wire", f"the largest is {falling[0]:.2f} mm"
    if len(falling) > 1:
        two = falling[0] + falling[1]
        # centres of circles i and j can be this far apart: along, and across
        along, across = long - two / 2, 0.0 if round_ends else max(short - two / 2, 0.0)
        if max(along, 0.0) ** 2 + across**2 < (two / 2) ** 2 * (1 - NOISE):
            return "two_largest", f"the two largest side by side need {two:.2f} mm"
    corners = (1 - math.pi / 4) * short**2 if round_ends else 0.0
    needed = math.pi / 4 * math.fsum(d * d for d in falling)
    if needed > (long * short - corners) * (1 + NOISE):
        return "area", f"they cover {needed:.1f} mm², and {long * short - corners:.1f} mm² are there"
    for k in range(2, len(falling) + 1):
        d = falling[k - 1]
        if _zigzag_applies(d, short) and zigzag_length(k, d, short) > long * (1 + NOISE):
            zigzag = zigzag_length(k, d, short)
            return "zigzag", f"the {k} largest, each of {d:.2f} mm or more, need {zigzag:.2f} mm of length in zigzag"
        a, b = (long - d) / d, (short - d) / d
        most = 2 * a * b / math.sqrt(3) + a + b + 1  # Oler's bound, see hole_proved
        if k > most * (1 + NOISE):
            return "equal_wires", f"at most {math.floor(most)} wires of {d:.2f} mm can go in, and {k} are that thick"
    return None


# --- the search for an arrangement -----------------------------------------------------------------------------

# Directions in radians from the middle to the corner of the rectangles that are tried inside a round opening.
CORNERS = (math.pi / 8, math.pi / 6, math.pi / 4, math.pi / 3)


@dataclass(frozen=True)
class _Disc:
    radius: float

    def pull(self, x: Any, y: Any, r: Any) -> tuple[Any, Any]:
        """Vector from the nearest allowed centre of each circle to its centre; zero inside."""
        import numpy as np

        room = np.maximum(self.radius - r, 0.0)
        far = np.hypot(x, y)
        over = np.maximum(far - room, 0.0) / np.maximum(far, 1e-300)
        return x * over, y * over

    def size(self) -> Centre:
        return self.radius, self.radius

    def rectangles(self) -> tuple[Centre, ...]:
        return tuple((2 * self.radius * math.cos(turn), 2 * self.radius * math.sin(turn)) for turn in CORNERS)

    def holds(self, x: Fraction, y: Fraction, r: Fraction) -> bool:
        room = Fraction(self.radius) - r
        return room >= 0 and x * x + y * y <= room * room


@dataclass(frozen=True)
class _Window:
    half_length: float
    half_width: float

    def pull(self, x: Any, y: Any, r: Any) -> tuple[Any, Any]:
        import numpy as np

        across_x, across_y = np.maximum(self.half_length - r, 0.0), np.maximum(self.half_width - r, 0.0)
        return x - np.clip(x, -across_x, across_x), y - np.clip(y, -across_y, across_y)

    def size(self) -> Centre:
        return self.half_length, self.half_width

    def rectangles(self) -> tuple[Centre, ...]:
        return ((2 * self.half_length, 2 * self.half_width),)

    def holds(self, x: Fraction, y: Fraction, r: Fraction) -> bool:
        return abs(x) <= Fraction(self.half_length) - r and abs(y) <= Fraction(self.half_width) - r


@dataclass(frozen=True)
class _Slot:
    half_length: float
    half_width: float

    def pull(self, x: Any, y: Any, r: Any) -> tuple[Any, Any]:
        import numpy as np

        spine = self.half_length - self.half_width
        off = x - np.clip(x, -spine, spine)
        far = np.hypot(off, y)
        over = np.maximum(far - np.maximum(self.half_width - r, 0.0), 0.0) / np.maximum(far, 1e-300)
        return off * over, y * over

    def size(self) -> Centre:
        return self.half_length, self.half_width

    def rectangles(self) -> tuple[Centre, ...]:
        spine, half = self.half_length - self.half_width, self.half_width
        return tuple((2 * (spine + half * math.cos(turn)), 2 * half * math.sin(turn)) for turn in CORNERS)

    def holds(self, x: Fraction, y: Fraction, r: Fraction) -> bool:
        spine = Fraction(self.half_length) - Fraction(self.half_width)
        off = x - max(-spine, min(spine, x))
        room = Fraction(self.half_width) - r
        return room >= 0 and off * off + y * y <= room * room


_Shape = _Disc | _Window | _Slot

# Circles are grown by this part of the opening in the search, so that what it finds passes the exact check.
GROWTH = 1e-7
# Overlaps squared, in parts of the opening's half size squared, above which a rough descent is given up.
JAMMED = 1e-4
# Of more circles than these a search takes seconds, and a bundle that is not found in shelves is laid in by hand.
MANY, STARTS_OF_MANY = 20, 2


def in_shelves(diameters: Sequence[float], length: float, width: float) -> tuple[Centre, ...] | None:
    """Centres of circles laid in rows, the largest first, in a rectangle about the origin; None where they do not go.

    Each circle takes a square of its diameter and each row the height of its largest: far from the densest, and found
    at once. ``length`` and ``width`` mm. Source: shelves in falling order, first fit.
    """
    order = sorted(range(len(diameters)), key=lambda index: -diameters[index])
    places: list[Centre] = [(0.0, 0.0)] * len(diameters)
    rows: list[list[float]] = []  # where it starts, its height, and how much of its length is taken
    for index in order:
        size = diameters[index]
        row = next((one for one in rows if one[2] + size <= length and size <= one[1]), None)
        if row is None:
            start = rows[-1][0] + rows[-1][1] if rows else 0.0
            if start + size > width or size > length:
                return None
            row = [start, size, 0.0]
            rows.append(row)
        places[index] = (row[2] + size / 2 - length / 2, row[0] + size / 2 - width / 2)
        row[2] += size
    return tuple(places)


def _search(diameters: Sequence[float], shape: _Shape, starts: int, seed: int) -> tuple[Centre, ...] | None:
    """From random starts, let overlapping circles push one another and the edge push them in (least squares of the
    overlaps); keep what passes the exact check.

    Conjugate gradients, because they need no linear algebra library: the threads of one make the same search tens of
    times slower on a busy machine.
    """
    if starts == 0:
        return None
    for length, width in shape.rectangles():
        centres = in_shelves(diameters, length, width)
        if centres is not None and arrangement_is_clear(diameters, shape, centres):
            return centres
    starts, polishing = (starts, 2000) if len(diameters) <= MANY else (min(starts, STARTS_OF_MANY), 300)
    import numpy as np
    from scipy.optimize import minimize

    dice = random.Random(seed)
    radii = np.array(diameters, dtype=float) / 2
    reach = max(shape.size())
    grown = radii + GROWTH * reach
    first, second = np.triu_indices(len(radii), 1)
    apart = grown[first] + grown[second]
    count = len(radii)

    def energy(flat: Any) -> tuple[float, Any]:
        x, y = flat[:count], flat[count:]
        dx, dy = x[first] - x[second], y[first] - y[second]
        distance = np.maximum(np.hypot(dx, dy), 1e-300)
        overlap = np.maximum(apart - distance, 0.0)
        push_x, push_y = -2 * overlap * dx / distance, -2 * overlap * dy / distance
        out_x, out_y = shape.pull(x, y, grown)
        slope_x, slope_y = 2 * out_x, 2 * out_y
        np.add.at(slope_x, first, push_x)
        np.add.at(slope_x, second, -push_x)
        np.add.at(slope_y, first, push_y)
        np.add.at(slope_y, second, -push_y)
        total = float(overlap @ overlap + out_x @ out_x + out_y @ out_y)
        return total, np.concatenate([slope_x, slope_y])

    half_length, half_width = shape.size()
    for _ in range(starts):
        begin = [dice.uniform(-half_length, half_length) for _ in range(count)]
        begin += [dice.uniform(-half_width, half_width) for _ in range(count)]
        # a rough descent first: most starts end in a jam that no polishing opens
        rough = minimize(energy, begin, jac=True, method="CG", options={"maxiter": 100, "gtol": 1e-3 * reach})
        if rough.fun > JAMMED * reach**2:
            continue
        found = minimize(energy, rough.x, jac=True, method="CG", options={"maxiter": polishing, "gtol": 1e-10 * reach})
        centres = tuple((float(found.x[n]), float(found.x[n + count])) for n in range(count))
        if arrangement_is_clear(diameters, shape, centres):
            return centres
    return None


def arrangement_is_clear(diameters: Sequence[float], shape: _Shape, centres: Sequence[Centre]) -> bool:
    """Exactly, in fractions: every circle inside the opening, no two overlapping (touching is allowed)."""
    circles = [(Fraction(x), Fraction(y), Fraction(d) / 2) for d, (x, y) in zip(diameters, centres, strict=True)]
    if not all(shape.holds(x, y, r) for x, y, r in circles):
        return False
    return all(
        (x - u) ** 2 + (y - v) ** 2 >= (r + s) ** 2
        for n, (x, y, r) in enumerate(circles)
        for u, v, s in circles[n + 1 :]
    )


def _searched(what: str, opening: str, centres: tuple[Centre, ...] | None, needed: float | None) -> Bundle:
    if centres is not None:
        return Bundle("goes", "found_arrangement", f"{what} lie side by side in {opening}: places were found.", centres)
    least = "" if needed is None else f" (a hole under {needed:.2f} mm is ruled out)"
    return Bundle(
        "undecided",
        "nothing_found",
        f"no arrangement of {what} in {opening} was found and none is ruled out{least}; try them in the opening.",
    )


# --- words and checks ------------------------------------------------------------------------------------------


def _list_of(diameters: Sequence[float]) -> str:
    falling = sorted(diameters, reverse=True)
    counts = Counter(falling)
    return ", ".join(f"{count} × {size:g}" if count > 1 else f"{size:g}" for size, count in counts.items())


def _check_positive(what: str, value: float) -> None:
    if not (math.isfinite(value) and value > 0):
        raise ValueError(f"{what} is {value!r}; it must be a finite number of millimetres above 0.")


def _check_count(what: str, value: int) -> None:
    if value < 1:
        raise ValueError(f"{what} is {value!r}; it must be 1 or more.")


def _check_starts(where: str, starts: int) -> None:
    if starts < 0:
        raise ValueError(f"{where}: starts is {starts}; it must be 0 or more (0: no search).")


def _check_diameters(where: str, diameters: Sequence[float]) -> None:
    if not diameters:
        raise ValueError(f"{where}: no diameters were given; name at least one wire.")
    for number, size in enumerate(diameters):
        _check_positive(f"{where}: diameter {number + 1}", size)
