"""Hole patterns that share bolts: do straight bolts of one size pass through both parts at once, however the
parts are moved.

One pair of holes. A straight bolt of diameter F may stand anywhere within (Ha − F)/2 of the middle of hole a
and within (Hb − F)/2 of the middle of hole b, so it passes both exactly when the middles are no further apart
than

    d <= (Ha − F)/2 + (Hb − F)/2        clearance holes in both parts (floating fastener, H = F + T)
    d <= (H − F)/2                      one part threaded (fixed fastener, T1 + T2 = H − F)

after ASME Y14.5-2009 Appendix B; its fixed formula takes a projected tolerance zone, that is, a thread square
to the face. The middle of a slot is the straight line between its end centres, and d is then a distance to
that line. The margin of a pair is the right-hand side less d; a hole smaller than the bolt has no larger
margin than its own negative half-gap.

The whole pattern. One rigid motion of part b (and its mirror image where it may be turned over) and one
pairing of holes have to serve every bolt. `bolts_pass` looks for the motion and the pairing with the largest
least margin and gives two numbers: `margin_mm`, reached by the motion it reports, and `bound_mm`, which no
motion and no pairing exceeds. margin_mm >= 0: the bolts pass. bound_mm < 0: they do not. Between the two,
undecided: put the parts together and try. For round holes of equal size the two meet within
PATTERN_TOLERANCE_MM and 0.2 % of a misfit, unless the patterns are large and unlike. For holes of mixed sizes
the bound may stand above the margin by up to 16 % of the residual distance (2/sqrt(3) − 1, Jung's theorem);
for slots it looks at the bolts two by two and may be looser.
"""

from __future__ import annotations

import cmath
import itertools
import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

if TYPE_CHECKING:
    import numpy
    from numpy.typing import NDArray

    Floats = NDArray[numpy.float64]
    Complexes = NDArray[numpy.complex128]

Point = tuple[float, float]
Threaded = Literal["neither", "a", "b"]
Pairing = tuple[tuple[int, int], ...]

PATTERN_TOLERANCE_MM = 1e-3
MISFIT_TOLERANCE = 0.002
MOST_PAIRINGS_SEARCHED = 40_000
MOST_PAIRINGS_SOLVED = 120
MOST_ARCS_HELD = 20_000
SEEDS_FOLLOWED = 12


@dataclass(frozen=True)
class Hole:
    """A hole in its part's own coordinates, mm. A slot is `slot_length` long between its end centres (0:
    round), lying at `slot_angle_deg` from the x axis, with (x, y) its middle and `diameter` its width."""

    x: float
    y: float
    diameter: float
    slot_length: float = 0.0
    slot_angle_deg: float = 0.0

    def __post_init__(self) -> None:
        numbers = (self.x, self.y, self.diameter, self.slot_length, self.slot_angle_deg)
        if not all(math.isfinite(number) for number in numbers):
            raise ValueError(f"hole {numbers}: every number has to be finite, in millimetres and degrees")
        if self.diameter <= 0.0 or self.slot_length < 0.0:
            raise ValueError(
                f"hole at ({self.x}, {self.y}): diameter {self.diameter} has to be positive and slot_length "
                f"{self.slot_length} not negative (0 for a round hole)"
            )


@dataclass(frozen=True)
class PatternMatch:
    """The best way found to lay pattern b on pattern a.

    margin_mm: least margin over the bolts at this motion. bound_mm: no motion and no pairing has more.
    A point p of part b goes to R(rotation_deg) · p + (dx, dy), with its y negated first when `flipped`.
    pairs: (index in a, index in b), one for each bolt.
    """

    margin_mm: float
    bound_mm: float
    rotation_deg: float
    dx: float
    dy: float
    flipped: bool
    pairs: Pairing


# ---- patterns and single holes -----------------------------------------------------------------------------


def grid_holes(length: float, width: float, diameter: float) -> tuple[Hole, ...]:
    """Four round holes at the corners of a rectangle about the origin: `length` along x, `width` along y,
    between centres."""
    _check_positive(length=length, width=width)
    return tuple(Hole(sx * length / 2.0, sy * width / 2.0, diameter) for sx, sy in ((1, 1), (-1, 1), (-1, -1), (1, -1)))


def circle_holes(count: int, circle_diameter: float, diameter: float, phase_deg: float = 0.0) -> tuple[Hole, ...]:
    """`count` round holes evenly spaced on a circle about the origin; the first at `phase_deg` from the x
    axis.

    circle_diameter is the diagonal of a four-hole face, not the side of its square: side = diagonal /
    sqrt(2).
    """
    if count < 1:
        raise ValueError(f"circle_holes: count is {count}; a pattern has at least one hole")
    _check_positive(circle_diameter=circle_diameter)
    radius = circle_diameter / 2.0
    angles = (math.radians(phase_deg + 360.0 * i / count) for i in range(count))
    return tuple(Hole(radius * math.cos(a), radius * math.sin(a), diameter) for a in angles)


def hole_centre_distance(one: Hole, other: Hole) -> float:
    """Distance between the middles of two holes of one part, mm; for a slot, to its centre line."""
    return _line_distance(*_ends(one), *_ends(other))


def web_between_old_and_new_hole(old: Hole, new: Hole) -> float:
    """Material left between the rims of two holes of one part, mm; negative by as much as they run into each
    other.

    web = distance of the middles − (diameter_old + diameter_new)/2.
    """
    return hole_centre_distance(old, new) - (old.diameter + new.diameter) / 2.0


def edge_distance(hole: Hole, outline: Sequence[Point]) -> float:
    """Material left between the rim of a hole and the edge of its part, mm; negative when the hole breaks the
    edge.

    outline: the part's edge, points once round in the hole's coordinates. A middle outside the outline counts
    as negative distance, so a hole wholly off the part gives minus (distance + radius).
    """
    import shapely

    part = shapely.Polygon(outline)
    if not part.is_valid:
        raise ValueError("edge_distance: the outline crosses itself; list its points once round, in order")
    start, end = _ends(hole)
    line = (
        shapely.LineString([(start.real, start.imag), (end.real, end.imag)])
        if start != end
        else shapely.Point(hole.x, hole.y)
    )
    if part.covers(line):
        return float(part.exterior.distance(line)) - hole.diameter / 2.0
    furthest = max(float(part.distance(shapely.Point(end.real, end.imag))) for end in (start, end))
    return -furthest - hole.diameter / 2.0


def _ends(hole: Hole) -> tuple[complex, complex]:
    half = cmath.rect(hole.slot_length / 2.0, math.radians(hole.slot_angle_deg))
    middle = complex(hole.x, hole.y)
    return middle - half, middle + half


def _line_distance(a: complex, b: complex, c: complex, d: complex) -> float:
    """Distance between the straight lines a–b and c–d, either of which may be a point."""
    if _cross(b - a, c - a) * _cross(b - a, d - a) < 0.0 and _cross(d - c, a - c) * _cross(d - c, b - c) < 0.0:
        return 0.0
    return min(
        _point_line_distance(a, c, d),
        _point_line_distance(b, c, d),
        _point_line_distance(c, a, b),
        _point_line_distance(d, a, b),
    )


def _point_line_distance(point: complex, start: complex, end: complex) -> float:
    along = end - start
    if along == 0:
        return abs(point - start)
    share = ((point - start) * along.conjugate()).real / abs(along) ** 2
    return abs(point - start - min(1.0, max(0.0, share)) * along)


def _cross(a: complex, b: complex) -> float:
    return a.real * b.imag - a.imag * b.real


# ---- two patterns ------------------------------------------------------------------------------------------


def bolts_pass(
    pattern_a: Sequence[Hole],
    pattern_b: Sequence[Hole],
    bolt_diameter: float,
    may_flip: bool = False,
    bolts_needed: int | None = None,
    threaded: Threaded = "neither",
) -> PatternMatch:
    """The largest least margin of straight bolts through two hole patterns, over rigid motions of b and
    pairings of holes.

    bolt_diameter: F, mm (the major diameter). may_flip: part b may be turned over, so its mirror image counts
    too. bolts_needed: how many pairs have to line up; by default every hole of the pattern that has fewer.
    threaded: the part, if any, whose holes are threads for the bolt; their diameters are then not clearances
    and are not read. More than about twelve holes a side still gives a reached margin, with a bound that may
    be loose. Raises ValueError for an empty pattern, a bolt without diameter, more bolts than holes, or a
    threaded slot.
    """
    needed = _checked_question(pattern_a, pattern_b, bolt_diameter, bolts_needed, threaded)
    sides = [_Sides(pattern_a, pattern_b, bolt_diameter, threaded, needed, flipped) for flipped in (False, True)]
    searches = sides if may_flip else sides[:1]
    best = max((side.seeded() for side in searches), key=lambda trial: trial.margin)
    bound = best.margin
    for side in searches:
        best, side_bound = side.searched(best)
        bound = max(bound, side_bound)
    turn = math.degrees(best.angle)
    return PatternMatch(
        margin_mm=best.margin,
        bound_mm=max(bound, best.margin),
        rotation_deg=math.remainder(turn, 360.0),
        dx=best.shift.real,
        dy=best.shift.imag,
        flipped=best.flipped,
        pairs=tuple(sorted(best.pairs)),
    )


@dataclass(frozen=True)
class _Trial:
    """A motion and a pairing with the margin they really have."""

    margin: float
    angle: float
    shift: complex
    flipped: bool
    pairs: Pairing


class _Sides:
    """Both patterns in complex numbers, b already mirrored when `flipped`, with what every pair of holes
    allows."""

    def __init__(
        self,
        pattern_a: Sequence[Hole],
        pattern_b: Sequence[Hole],
        bolt: float,
        threaded: Threaded,
        needed: int,
        flipped: bool,
    ) -> None:
        import numpy

        self.flipped, self.needed = flipped, needed
        self.a_ends = [_ends(hole) for hole in pattern_a]
        self.b_ends = [
            (s.conjugate(), e.conjugate()) if flipped else (s, e) for s, e in (_ends(hole) for hole in pattern_b)
        ]
        self.a = numpy.array([(s + e) / 2 for s, e in self.a_ends])
        self.b = numpy.array([(s + e) / 2 for s, e in self.b_ends])
        self.a_half = numpy.array([(e - s) / 2 for s, e in self.a_ends])
        self.b_half = numpy.array([(e - s) / 2 for s, e in self.b_ends])
        self.slotted = bool(numpy.abs(self.a_half).max() > 0.0 or numpy.abs(self.b_half).max() > 0.0)
        gap_a = [0.0 if threaded == "a" else (hole.diameter - bolt) / 2.0 for hole in pattern_a]
        gap_b = [0.0 if threaded == "b" else (hole.diameter - bolt) / 2.0 for hole in pattern_b]
        self.allowed = [[ga + gb for gb in gap_b] for ga in gap_a]
        # A hole that the bolt does not enter limits every pair it is in, however close the middles are.
        self.cap = [[min(ga, gb) if min(ga, gb) < 0.0 else math.inf for gb in gap_b] for ga in gap_a]
        self.a_spans = _spans(self.a_ends)
        self.b_spans = _spans(self.b_ends)
        self.rows_are_a = len(pattern_a) <= len(pattern_b)

    # ---- what a given motion reaches

    def pair_margin(self, i: int, j: int, turn: complex, shift: complex) -> float:
        start, end = self.b_ends[j]
        distance = _line_distance(*self.a_ends[i], turn * start + shift, turn * end + shift)
        return min(self.allowed[i][j] - distance, self.cap[i][j])

    def trial(self, pairs: Pairing, angle: float, shift: complex) -> _Trial:
        turn = cmath.rect(1.0, angle)
        margin = min(self.pair_margin(i, j, turn, shift) for i, j in pairs)
        return _Trial(margin, angle, shift, self.flipped, pairs)

    def least_squares(self, pairs: Pairing) -> _Trial:
        """The motion that brings the middles together with the least sum of squares (Procrustes; proper
        rotations only)."""
        a = [complex(self.a[i]) for i, _ in pairs]
        b = [complex(self.b[j]) for _, j in pairs]
        middle_a, middle_b = sum(a) / len(a), sum(b) / len(b)
        torque = sum(((q - middle_b).conjugate() * (p - middle_a) for p, q in zip(a, b, strict=True)), 0j)
        angle = cmath.phase(torque) if abs(torque) > 1e-12 else 0.0
        return self.trial(pairs, angle, middle_a - cmath.rect(1.0, angle) * middle_b)

    def evened_out(self, start: _Trial) -> _Trial:
        """The motion near `start` with the largest least margin, by sequential quadratic programming on
        (allowed − s)² − |offset|² >= 0; a slot adds the place of the bolt along it as an unknown. The answer
        is judged anew."""
        import numpy
        from scipy.optimize import minimize

        pairs = start.pairs
        i, j = [p[0] for p in pairs], [p[1] for p in pairs]
        a, b, a_half, b_half = self.a[i], self.b[j], self.a_half[i], self.b_half[j]
        allowed = numpy.array([self.allowed[p][q] for p, q in pairs])
        centre = b.mean()
        turn0 = cmath.rect(1.0, start.angle)
        place0 = turn0 * centre + start.shift
        in_a = numpy.flatnonzero(numpy.abs(a_half) > 0.0)
        in_b = numpy.flatnonzero(numpy.abs(b_half) > 0.0)
        size = max(1.0, float(numpy.abs(b - centre).max()))

        def offsets(x: Floats) -> Complexes:
            turn = cmath.rect(1.0, x[2])
            along_a, along_b = numpy.zeros(len(pairs)), numpy.zeros(len(pairs))
            along_a[in_a] = x[4 : 4 + len(in_a)]
            along_b[in_b] = x[4 + len(in_a) :]
            moved = turn * (b - centre + along_b * b_half) + complex(x[0], x[1])
            out: Complexes = a + along_a * a_half - moved
            return out

        def room(x: Floats) -> Floats:
            left: Floats = (allowed - x[3]) ** 2 - numpy.abs(offsets(x)) ** 2
            return left

        def slopes(x: Floats) -> Floats:
            off, turn = offsets(x), cmath.rect(1.0, x[2])
            along_b = numpy.zeros(len(pairs))
            along_b[in_b] = x[4 + len(in_a) :]
            spin = 1j * turn * (b - centre + along_b * b_half)
            table = numpy.zeros((len(pairs), len(x)))
            table[:, 0], table[:, 1] = 2.0 * off.real, 2.0 * off.imag
            table[:, 2] = 2.0 * (off.conj() * spin).real
            table[:, 3] = -2.0 * (allowed - x[3])
            for column, row in enumerate(in_a, start=4):
                table[row, column] = -2.0 * (off[row].conjugate() * a_half[row]).real
            for column, row in enumerate(in_b, start=4 + len(in_a)):
                table[row, column] = 2.0 * (off[row].conjugate() * turn * b_half[row]).real
            return table

        count = 4 + len(in_a) + len(in_b)
        x0 = numpy.zeros(count)
        x0[:3] = (place0.real, place0.imag, start.angle)
        x0[3] = min(float((allowed - numpy.abs(offsets(x0))).min()), float(allowed.min()))
        aim = numpy.zeros(count)
        aim[3] = -1.0
        limits = [(None, None), (None, None), (start.angle - 1.0, start.angle + 1.0), (None, float(allowed.min()))]
        limits += [(-1.0, 1.0)] * (count - 4)
        found = minimize(
            lambda x: -x[3],
            x0,
            jac=lambda x: aim,
            method="SLSQP",
            bounds=limits,
            constraints=[{"type": "ineq", "fun": room, "jac": slopes}],
            options={"maxiter": 60, "ftol": 1e-12 * size},
        )
        angle = float(found.x[2])
        shift = complex(found.x[0], found.x[1]) - cmath.rect(1.0, angle) * complex(centre)
        better = self.trial(pairs, angle, shift)
        return better if better.margin > start.margin else start

    # ---- a first good answer

    def seeded(self) -> _Trial:
        """A good start: lay every ordered pair of b on one long pair of a (any pair, when holes may stay
        empty), take the pairings that the promising motions suggest, and keep the best after least
        squares."""
        import numpy
        from scipy.optimize import linear_sum_assignment

        allowed = numpy.array(self.allowed)
        if self.needed == 1:
            best = numpy.unravel_index(numpy.argmax(numpy.minimum(allowed, numpy.array(self.cap))), allowed.shape)
            return self.least_squares(((int(best[0]), int(best[1])),))
        small, large = (self.a, self.b) if self.rows_are_a else (self.b, self.a)
        bases = list(itertools.combinations(range(len(small)), 2))
        if self.needed == len(small):
            bases = [max(bases, key=lambda pair: abs(small[pair[0]] - small[pair[1]]))]
        ordered = [(p, q) for p in range(len(large)) for q in range(len(large)) if p != q]
        laid = numpy.array([(*base, *pair) for base in bases for pair in ordered])
        on_a, on_b = (laid[:, :2], laid[:, 2:]) if self.rows_are_a else (laid[:, 2:], laid[:, :2])
        span_a = self.a[on_a[:, 1]] - self.a[on_a[:, 0]]
        span_b = self.b[on_b[:, 1]] - self.b[on_b[:, 0]]
        turn = span_a * span_b.conj()
        turn = numpy.where(numpy.abs(turn) > 0.0, turn, 1.0)
        turn = turn / numpy.abs(turn)
        shift = self.a[on_a].mean(axis=1) - turn * self.b[on_b].mean(axis=1)
        promising: list[tuple[float, complex, complex]] = []
        for part in range(0, len(laid), 4096):
            some = slice(part, part + 4096)
            moved = turn[some, None] * self.b[None, :] + shift[some, None]
            margins = allowed[None] - numpy.abs(self.a[None, :, None] - moved[:, None, :])
            rows = margins.max(axis=2 if self.rows_are_a else 1)
            scores = numpy.sort(rows, axis=1)[:, rows.shape[1] - self.needed]
            for index in numpy.argsort(-scores)[:SEEDS_FOLLOWED]:
                promising.append((float(scores[index]), complex(turn[some][index]), complex(shift[some][index])))
        promising.sort(key=lambda seed: -seed[0])
        best_trial: _Trial | None = None
        for _, turned, shifted in promising[:SEEDS_FOLLOWED]:
            margins = allowed - numpy.abs(self.a[:, None] - (turned * self.b[None, :] + shifted))
            rows_, columns = linear_sum_assignment(-margins)
            chosen = sorted(zip(rows_, columns, strict=True), key=lambda pair: -margins[pair])[: self.needed]
            trial = self.least_squares(tuple((int(i), int(j)) for i, j in chosen))
            if best_trial is None or trial.margin > best_trial.margin:
                best_trial = trial
        assert best_trial is not None  # two holes a side always give a motion
        return best_trial

    # ---- every pairing

    def searched(self, best: _Trial) -> tuple[_Trial, float]:
        """The best over all pairings and a bound on it; `best` is what has been reached so far.

        Pairings grow one hole at a time. Two bolts p, q cannot both have more than (allowed_p + allowed_q −
        |Dp|)/2, where Dp is how much their spacing differs between the two parts, whatever the motion: that
        prunes all but a few.
        """
        if best.flipped == self.flipped:
            best = max(best, self.evened_out(best), key=lambda trial: trial.margin)
        bound = -math.inf
        leaves: list[tuple[float, Pairing]] = []
        rows = self._rows_in_order()
        width = len(self.b if self.rows_are_a else self.a)
        budget = MOST_PAIRINGS_SEARCHED
        stack: list[tuple[int, float, Pairing, int]] = [(0, math.inf, (), len(rows) - self.needed)]
        while stack:
            depth, hope, pairs, spare = stack.pop()
            enough = _good_enough(best.margin)
            if len(pairs) == self.needed:
                leaves.append((hope, pairs))
                continue
            if hope <= enough or budget <= 0:
                bound = max(bound, hope)
                continue
            budget -= 1
            grown: list[tuple[int, float, Pairing, int]] = []
            if spare > 0:
                grown.append((depth + 1, hope, pairs, spare - 1))
            taken = {pair[1] if self.rows_are_a else pair[0] for pair in pairs}
            for other in range(width):
                if other in taken:
                    continue
                pair = (rows[depth], other) if self.rows_are_a else (other, rows[depth])
                limit = min(hope, self._pair_hope(pair, pairs))
                if limit <= enough:
                    bound = max(bound, limit)
                else:
                    grown.append((depth + 1, limit, (*pairs, pair), spare))
            stack += sorted(grown, key=lambda branch: branch[1])
        return self._solved(leaves, best, bound)

    def _solved(self, leaves: list[tuple[float, Pairing]], best: _Trial, bound: float) -> tuple[_Trial, float]:
        """Settle every pairing that survived: bound it over all rotations, and even it out where the bound
        leaves hope."""
        starts = sorted(((hope, self.least_squares(pairs)) for hope, pairs in leaves), key=lambda leaf: -leaf[0])
        best = max((best, *(start for _, start in starts)), key=lambda trial: trial.margin)
        for number, (hope, start) in enumerate(starts):
            if hope <= _good_enough(best.margin) or number >= MOST_PAIRINGS_SOLVED:
                bound = max(bound, hope)
                continue
            limit, angle = self._rotation_bound(start.pairs, best.margin)
            if limit > _good_enough(best.margin):
                for trial in (start, self._turned_to(start.pairs, angle)):
                    best = max(best, self.evened_out(trial), key=lambda one: one.margin)
                limit, _ = self._rotation_bound(start.pairs, best.margin)
            bound = max(bound, min(hope, limit))
        return best, bound

    def _turned_to(self, pairs: Pairing, angle: float) -> _Trial:
        turn = cmath.rect(1.0, angle)
        shift = sum((complex(self.a[i] - turn * self.b[j]) for i, j in pairs), 0j) / len(pairs)
        return self.trial(pairs, angle, shift)

    def _rows_in_order(self) -> list[int]:
        """The holes of the smaller pattern, each as far as possible from those before it: wide pairs decide
        soonest."""
        points = [complex(point) for point in (self.a if self.rows_are_a else self.b)]
        middle = sum(points) / len(points)
        order = [max(range(len(points)), key=lambda i: abs(points[i] - middle))]
        while len(order) < len(points):
            rest = [i for i in range(len(points)) if i not in order]
            order.append(max(rest, key=lambda i: min(abs(points[i] - points[k]) for k in order)))
        return order

    def _pair_hope(self, pair: tuple[int, int], others: Iterable[tuple[int, int]]) -> float:
        i, j = pair
        allowed = self.allowed[i][j]
        hope = min(allowed, self.cap[i][j])
        for p, q in others:
            low_a, high_a = self.a_spans[i][p]
            low_b, high_b = self.b_spans[j][q]
            gap = max(0.0, low_a - high_b, low_b - high_a)
            hope = min(hope, (allowed + self.allowed[p][q] - gap) / 2.0)
        return hope

    def _rotation_bound(self, pairs: Pairing, reached: float) -> tuple[float, float]:
        """No motion gives this pairing more: bound, and the rotation (rad) at which the bound was largest.

        At one rotation the offsets of the holes are fixed up to a common shift, so two bolts share at most
        half of (allowed_p + allowed_q − distance of their offsets), and three at most the largest allowed
        less the radius of the circle through their offsets when that triangle is acute. Turning by t moves no
        offset by more than reach · t, so each arc of rotations is bounded from its middle; arcs that could
        still beat `reached` are halved.
        """
        import numpy

        i, j = [p[0] for p in pairs], [p[1] for p in pairs]
        a, b, a_half, b_half = self.a[i], self.b[j], self.a_half[i], self.b_half[j]
        allowed = numpy.array([self.allowed[p][q] for p, q in pairs])
        most = float(min(min(self.allowed[p][q], self.cap[p][q]) for p, q in pairs))
        if len(pairs) == 1:
            return most, 0.0
        centre = (b.real.min() + b.real.max()) / 2 + 1j * (b.imag.min() + b.imag.max()) / 2
        b = b - centre
        reach = float((numpy.abs(b) + numpy.abs(b_half)).max())
        enough = _good_enough(reached)
        arcs = 256
        middles: Floats = numpy.asarray((numpy.arange(arcs) + 0.5) * (math.tau / arcs), dtype=float)
        half = math.pi / arcs
        settled, angle, top = -math.inf, 0.0, -math.inf
        while True:
            here = numpy.minimum(_pair_margin(middles, a, b, a_half, b_half, allowed, self.slotted), most)
            look_closer = here + reach * half > enough
            if not self.slotted and len(pairs) > 2 and look_closer.any():
                triples = _triple_margin(middles[look_closer], a, b, allowed)
                here[look_closer] = numpy.minimum(here[look_closer], triples)
            if float(here.max()) > top:
                top, angle = float(here.max()), float(middles[int(here.argmax())])
            limits = numpy.minimum(here + reach * half, most)
            open_arcs = limits > enough
            settled = max(settled, float(limits[~open_arcs].max(initial=-math.inf)))
            if not open_arcs.any():
                return settled, angle
            if reach * half < PATTERN_TOLERANCE_MM / 8.0 or 2 * int(open_arcs.sum()) > MOST_ARCS_HELD:
                return max(settled, float(limits.max())), angle
            half /= 2.0
            middles = numpy.concatenate([middles[open_arcs] - half, middles[open_arcs] + half])


def _good_enough(reached: float) -> float:
    """A bound this low closes the search: PATTERN_TOLERANCE_MM above the margin, and 0.2 % more of a
    misfit."""
    return reached + PATTERN_TOLERANCE_MM + MISFIT_TOLERANCE * max(0.0, -reached)


def _pair_margin(
    angles: Floats, a: Complexes, b: Complexes, a_half: Complexes, b_half: Complexes, allowed: Floats, slotted: bool
) -> Floats:
    """What no shift can better at each rotation, looking at the holes two by two (see `_rotation_bound`)."""
    import numpy

    turns = numpy.exp(1j * angles)
    offsets = a[None, :] - turns[:, None] * b[None, :]
    p, q = numpy.triu_indices(len(a), 1)
    apart = offsets[:, p] - offsets[:, q]
    distance = numpy.abs(apart)
    if slotted:
        # A slot lets its offset slide: whatever direction is looked along, only the rest of the distance is certain.
        distance = numpy.zeros_like(distance)
        for direction in numpy.exp(1j * numpy.linspace(0.0, math.pi, 64, endpoint=False)):
            slide_a = numpy.abs((a_half.conj() * direction).real)
            slide_b = numpy.abs(((turns[:, None] * b_half[None, :]).conj() * direction).real)
            slide = (slide_a[p] + slide_a[q])[None, :] + slide_b[:, p] + slide_b[:, q]
            distance = numpy.maximum(distance, numpy.abs((apart.conj() * direction).real) - slide)
    least: Floats = ((allowed[p] + allowed[q])[None, :] - distance).min(axis=1) / 2.0
    return least


def _triple_margin(angles: Floats, a: Complexes, b: Complexes, allowed: Floats) -> Floats:
    """What no shift can better at each rotation, looking at round holes three by three (see
    `_rotation_bound`)."""
    import numpy

    offsets = a[None, :] - numpy.exp(1j * angles)[:, None] * b[None, :]
    k, m, n = numpy.array(list(itertools.combinations(range(len(a)), 3))).T
    first, second = offsets[:, m] - offsets[:, k], offsets[:, n] - offsets[:, k]
    u2, v2, w2 = numpy.abs(second - first) ** 2, numpy.abs(second) ** 2, numpy.abs(first) ** 2
    doubled_area = numpy.abs((first.conj() * second).imag)
    acute = (2.0 * numpy.maximum(numpy.maximum(u2, v2), w2) < u2 + v2 + w2) & (doubled_area > 0.0)
    radius = numpy.sqrt(u2 * v2 * w2) / (2.0 * numpy.where(acute, doubled_area, 1.0))
    largest = numpy.maximum(numpy.maximum(allowed[k], allowed[m]), allowed[n])
    least: Floats = numpy.where(acute, largest[None, :] - radius, math.inf).min(axis=1)
    return least


def _spans(ends: Sequence[tuple[complex, complex]]) -> list[list[tuple[float, float]]]:
    """Least and greatest spacing that a bolt in one hole can have from a bolt in another, looking at middles
    and slots only."""
    return [
        [(_line_distance(*one, *other), max(abs(s - t) for s in one for t in other)) for other in ends] for one in ends
    ]


# ---- questions that make no sense --------------------------------------------------------------------------


def _checked_question(
    pattern_a: Sequence[Hole],
    pattern_b: Sequence[Hole],
    bolt: float,
    bolts_needed: int | None,
    threaded: Threaded,
) -> int:
    if not pattern_a or not pattern_b:
        raise ValueError("bolts_pass: a pattern without holes has nothing to bolt; give the holes of both parts")
    _check_positive(bolt_diameter=bolt)
    if threaded not in ("neither", "a", "b"):
        raise ValueError(f"bolts_pass: threaded is {threaded!r}; say 'neither', 'a' or 'b'")
    fewest = min(len(pattern_a), len(pattern_b))
    needed = fewest if bolts_needed is None else bolts_needed
    if not 1 <= needed <= fewest:
        raise ValueError(
            f"bolts_pass: {needed} bolts asked for, but the patterns have {len(pattern_a)} and {len(pattern_b)} "
            f"holes; ask for 1 to {fewest}"
        )
    tapped = pattern_a if threaded == "a" else pattern_b if threaded == "b" else ()
    if any(hole.slot_length > 0.0 for hole in tapped):
        raise ValueError(f"bolts_pass: pattern {threaded} is threaded and has a slot; a thread cannot be a slot")
    return needed


def _check_positive(**sizes: float) -> None:
    for name, size in sizes.items():
        if not (math.isfinite(size) and size > 0.0):
            raise ValueError(f"{name} is {size}; it has to be a positive number of millimetres")
