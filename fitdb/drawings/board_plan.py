"""A whole board from above, to scale: deck, trucks and wheels, and with dashed edges what hangs under the deck."""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence

from fitdb.drawings.board_readings import (
    BOXES,
    ENDS,
    PLACES,
    BoardReadings,
    end_of,
    measure,
    read_range,
    spoken,
)
from fitdb.drawings.dimensions import LETTER, ROW, Shapes, across, chain, extent, notes_below, scale_bar, upright
from fitdb.drawings.shapes import Drawing, Label, Line
from fitdb.formulas.deck_outline import half_widths
from fitdb.model.finding import Range

AT_THE_WHEELS = 150.0
"""The half width beside the wheels is read within so much of the axle."""

Point = tuple[float, float]


def plan_drawing(board: BoardReadings) -> Drawing | None:
    """None where the wheelbase is not known, or where there is neither a deck nor a wheel to draw."""
    if board.wheelbase is None:
        return None
    shapes = [*_deck(board)]
    for end in ENDS:
        shapes += _hanger(board, end)
    for place in PLACES:
        shapes += [*_wheel(board, place), *_drive(board, place)]
    for box in BOXES:
        if board.has(box):
            shapes += _box(board, box)
    return _with_sizes(board, shapes) if shapes else None


def _with_sizes(board: BoardReadings, shapes: Shapes) -> Drawing:
    left, low, right, _ = extent(shapes)
    body: Shapes = [*shapes, Line(((left - 15, 0.0), (right + 15, 0.0)), "note")]
    told: list[str] = []
    rear, front = board.axle("rear"), board.axle("front")
    row = low - 34
    spans = []
    for end, axle, way in (("rear", rear, 1), ("front", front, -1)):
        distance = board.box_distance(end)
        if distance is not None:
            words = f"{end} axle to box {measure(distance)}"
            ends = sorted((axle, axle + way * distance.nominal))
            spans.append((ends[0], ends[1], words))
            told.append(f"{words.capitalize()}.")
            edge = axle + way * distance.nominal
            body.append(Line(((edge, 0.0), (edge, row - 5)), "note"))
    deepest = row
    if spans:
        body += chain(spans, row)
        row -= ROW + 14
    for size, x1, x2, name in (
        (_wheelbase(board), rear, front, "wheelbase"),
        (_read(board, "length"), None, None, "deck length"),
    ):
        if size is None:
            continue
        start, stop = (-size.nominal / 2, size.nominal / 2) if x1 is None or x2 is None else (x1, x2)
        words = f"{name} {measure(size)}"
        body += across(start, stop, row, words)
        body += [Line(((x, 0.0), (x, row - 5)), "note") for x in (start, stop)]
        told.append(f"{words.capitalize()}.")
        deepest = row
        row -= ROW + 14
    width = _read(board, "width")
    if width is not None and board.mm("deck", "length") is not None:
        x = right + 30
        body += upright(x, -width.nominal / 2, width.nominal / 2, ("deck width", measure(width)), "right")
        body += [Line(((0.0, y), (x + 5, y)), "note") for y in (-width.nominal / 2, width.nominal / 2)]
        told.append(f"Deck width {measure(width)}.")
    body += _tracks(board, left - 30, told)
    left, _, right, _ = extent(body)
    body += [*scale_bar(left, deepest - 34), Label(right, deepest - 39, "nose this way →", "end")]
    notes = board.notes()
    body += notes_below(notes, left, deepest - 39 - 2 * ROW, right - left)
    words = " ".join(("The board from above, nose to the right; what hangs under the deck is dashed.", *told, *notes))
    return Drawing("Plan", words, "xy", tuple(body))


def _tracks(board: BoardReadings, x: float, told: list[str]) -> Shapes:
    """Over the wheels of the rear axle, and of the front axle where that is another width; left of the board."""
    shapes: Shapes = []
    done: set[str] = set()
    for end in ENDS:
        sides = [board.sizes.get(f"{end}_{side}.outer_face") for side in ("left", "right")]
        one, other = sides
        if one is None or other is None:
            continue
        track = Range(one.low + other.low, one.nominal + other.nominal, one.high + other.high, "mm")
        words = measure(track)
        told.append(f"Over the {end} wheels {words}.")
        if words in done or done:
            continue
        done.add(words)
        top, bottom = one.nominal, -other.nominal
        shapes += upright(x, bottom, top, (f"over {end} wheels", words), "left")
        shapes += [Line(((x - 5, y), (board.axle(end), y)), "note") for y in (bottom, top)]
    return shapes


def _wheelbase(board: BoardReadings) -> Range | None:
    return board.sizes.get("wheelbase") or _read(board, "wheelbase")


def _read(board: BoardReadings, attribute: str) -> Range | None:
    return read_range(board.reading("deck", attribute))


def _deck(board: BoardReadings) -> Shapes:
    length, width = board.mm("deck", "length"), board.mm("deck", "width")
    if not board.has("deck") or not board.known("deck", length=length, width=width) or not length or not width:
        return []
    upper = _edge(board, length, width)
    board.sketch("nose and tail (equally long, rounded)")
    lower = [(x, -y) for x, y in reversed(upper)]
    return [Line((*upper, *lower), "first", True)]


def _edge(board: BoardReadings, length: float, width: float) -> list[Point]:
    """The deck's left edge from tail to nose: platform, what was read beside the wheels, and rounded corners."""
    drawn, beside = board.outline("deck", "plan_outline"), board.mm("deck", "half_width_at_wheel")
    half, middle = length / 2, width / 2
    overhang = half - board.axle("front")
    if drawn is not None:
        zone = [point for point in half_widths(drawn.rings) if point[1] > 0.0]
        reach = min(zone[-1][0], board.axle("front"))
        inward = [*_until(zone, reach), (min(reach + AT_THE_WHEELS, board.axle("front")), middle)]
    else:
        if not board.known("deck beside the wheels", half_width_there=beside):
            beside = middle
        assert beside is not None
        zone = [(0.0, beside), (max(overhang, 1.0), beside)]
        inward = [(0.0, beside), (min(AT_THE_WHEELS, board.axle("front")), middle)]
    outward = _until(zone, overhang)
    last = outward[-1][1]
    level_from = max((x for x, y in outward if y != last), default=0.0)  # a cut-out is not rounded away
    corner = max(min(0.8 * overhang, 0.7 * last, overhang - level_from), 0.0)
    rounded = [point for point in outward if point[0] <= overhang - corner]
    rounded += [
        (
            overhang - corner + corner * math.sin(math.radians(turn)),
            last - corner + corner * math.cos(math.radians(turn)),
        )
        for turn in range(0, 91, 10)
    ]
    ahead = [(board.axle("front") + x, y) for x, y in rounded]
    behind_front = [(board.axle("front") - x, y) for x, y in inward]
    nose_half = [*reversed(behind_front), *ahead]
    return [*((-x, y) for x, y in reversed(nose_half)), *nose_half]


def _until(points: Sequence[Point], reach: float) -> list[Point]:
    """Points with rising x as far as `reach`; the last level is kept on to there."""
    kept = [points[0]]
    for (x1, y1), (x2, y2) in itertools.pairwise(points):
        if x1 >= reach:
            break
        if x2 >= reach:
            share = (reach - x1) / (x2 - x1) if x2 > x1 else 0.0
            kept.append((reach, y1 + (y2 - y1) * share))
            return kept
        kept.append((x2, y2))
    return [*kept, (reach, kept[-1][1])] if kept[-1][0] < reach else kept


def _hanger(board: BoardReadings, end: str) -> Shapes:
    if not board.has(f"{end}_hanger") and not board.has(f"{end}_truck"):
        return []
    width, axle = board.hanger_width(end), board.axle(end)
    faces = [board.size(f"{end}_{side}.outer_face") for side in ("left", "right")]
    tips = [face + 8 if face is not None else None for face in faces]
    shapes: Shapes = []
    if tips[0] is not None and tips[1] is not None:
        shapes.append(Line(((axle, tips[0]), (axle, -tips[1])), "metal"))
    if not board.known(f"{end} hanger", width=width) or width is None:
        return shapes
    thick = board.mm(f"{end}_hanger", "end_diameter") or board.mm(f"{end}_truck", "end_diameter")
    if thick is None:
        board.known(f"{end} hanger", thickness=None)
        return [*shapes, Line(((axle, width / 2), (axle, -width / 2)), "metal")]
    return [*shapes, _rectangle(axle - thick / 2, axle + thick / 2, -width / 2, width / 2, "metal")]


def _wheel(board: BoardReadings, place: str) -> Shapes:
    end = end_of(place)
    seats = [f"{place}_{seat}" for seat in ("wheel", "hub_sleeve") if board.has(f"{place}_{seat}")]
    if not seats:
        return []
    radius = board.size(f"{end}.wheel_radius")
    if radius is None:
        read = board.mm(seats[0], "outer_diameter")
        radius = read / 2 if read is not None else None
    inner, outer = board.size(f"{place}.inner_face"), board.size(f"{place}.outer_face")
    if not board.known(f"{spoken(place)} wheel", diameter=radius, inner_face=inner, outer_face=outer):
        return []
    assert radius is not None and inner is not None and outer is not None
    shapes: Shapes = [_beside(board, place, 0.0, radius, inner, outer, "wheel")]
    if board.has(f"{place}_hub_motor"):
        shapes.append(_name(board, place, 0.0, inner, outer, "hub"))
    return shapes


def _drive(board: BoardReadings, place: str) -> Shapes:
    shapes: Shapes = []
    end, name = end_of(place), spoken(place)
    inner = board.size(f"{place}.inner_face")
    housing: float | None = None
    if board.has(f"{place}_gear_drive"):
        seat = f"{place}_gear_drive"
        reach, width = board.mm(seat, "housing_radius"), board.mm(seat, "housing_width")
        if board.known(f"{name} gear housing", radius=reach, width=width, inner_face_of_the_wheel=inner):
            assert reach is not None and width is not None and inner is not None
            board.sketch("how far out a gear drive stands (against the wheel)")
            housing = inner - width
            shapes.append(_beside(board, place, 0.0, reach, housing, inner, "second"))
            shapes.append(_name(board, place, 0.0, housing, inner, "gears"))
    if board.has(f"{place}_direct_drive"):
        seat = f"{place}_direct_drive"
        can, length = board.mm(seat, "can_diameter"), board.mm(seat, "can_length")
        if board.known(f"{name} direct drive", diameter=can, length=length, inner_face_of_the_wheel=inner):
            assert can is not None and length is not None and inner is not None
            board.sketch("how far out a direct drive stands (against the wheel)")
            shapes.append(_beside(board, place, 0.0, can / 2, inner - length, inner, "second"))
            shapes.append(_name(board, place, 0.0, inner - length, inner, "direct"))
    if board.has(f"{place}_driven_pulley"):
        seat = f"{place}_driven_pulley"
        pitch, length = board.pitch_radius(seat), board.mm(seat, "axial_length")
        if board.known(f"{name} driven pulley", teeth_and_pitch=pitch, length=length, inner_face_of_the_wheel=inner):
            assert pitch is not None and length is not None and inner is not None
            shapes.append(_beside(board, place, 0.0, pitch, inner - length, inner, "pulley"))
    if board.has(f"{place}_motor"):
        at, can = board.motor_at(place), board.mm(f"{place}_motor", "can_diameter")
        length, plate = board.mm(f"{place}_motor", "can_length"), _plate(board, place, end, housing)
        if board.known(f"{name} motor", diameter=can, length=length, place_along_the_hanger=plate) and at:
            assert can is not None and length is not None and plate is not None
            shapes.append(_beside(board, place, at[0], can / 2, plate - length, plate, "second"))
            shapes.append(_name(board, place, at[0], plate - length, plate, "motor"))
        shapes += _belt(board, place, at, inner)
    return shapes


def _plate(board: BoardReadings, place: str, end: str, housing: float | None) -> float | None:
    """y of the can's end at the mount's plate: measured, or worked out; at a gear drive where its housing ends."""
    measured = board.mm(f"{place}_motor", "outermost_point")
    if measured is not None or board.has(f"{place}_gear_drive"):
        return measured if measured is not None else housing
    width, mount = board.hanger_width(end), f"{place}_motor_mount"
    inset, plate = board.mm(mount, "outer_face_inset"), board.mm(mount, "plate_thickness")
    return None if width is None or inset is None or plate is None else width / 2 - inset - plate


def _belt(board: BoardReadings, place: str, at: Point | None, inner: float | None) -> Shapes:
    """The belt from above, as wide as it is, from axle to motor, and the pulley on the motor's shaft."""
    offset = board.mm(f"{place}_driven_pulley", "belt_plane_offset")
    width, face = board.mm(f"{place}_belt", "width"), board.mm(f"{place}_drive_pulley", "face_width")
    small, large = board.pitch_radius(f"{place}_drive_pulley"), board.pitch_radius(f"{place}_driven_pulley")
    if at is None or inner is None or offset is None or not board.has(f"{place}_belt"):
        return []
    plane, way = inner - offset, math.copysign(1.0, at[0])
    shapes: Shapes = []
    if face is not None and small is not None:
        shapes.append(_beside(board, place, at[0], small, plane - face / 2, plane + face / 2, "pulley"))
    if width is not None and small is not None and large is not None:
        ends = sorted((-way * large, at[0] + way * small))
        half, middle = (ends[1] - ends[0]) / 2, (ends[0] + ends[1]) / 2
        shapes.append(_beside(board, place, middle, half, plane - width / 2, plane + width / 2, "belt"))
    return shapes


def _box(board: BoardReadings, box: str) -> Shapes:
    span, width = board.box_span(box), board.mm(box, "width")
    if not board.known(BOXES[box], width=width) or width is None or span is None:
        return []
    edge = -width / 2 + 10 if box == "second_box" else width / 2 - LETTER - 8
    words = Label(sum(span) / 2, edge, BOXES[box], "middle")
    return [_rectangle(*span, -width / 2, width / 2, "below"), words]


def _beside(board: BoardReadings, place: str, along: float, half: float, inner: float, outer: float, kind: str) -> Line:
    """A rectangle at a place of the board: `along` from its axle, `half` long either way, between two y's outward."""
    x = board.axle(end_of(place)) + along
    sign = 1 if place.endswith("left") else -1
    ys = sorted((sign * inner, sign * outer))
    return _rectangle(x - half, x + half, ys[0], ys[1], kind)


def _name(board: BoardReadings, place: str, along: float, inner: float, outer: float, words: str) -> Label:
    """Words in the middle of what stands there."""
    sign = 1 if place.endswith("left") else -1
    return Label(board.axle(end_of(place)) + along, sign * (inner + outer) / 2 - 5, words, "middle")


def _rectangle(x1: float, x2: float, y1: float, y2: float, kind: str) -> Line:
    return Line(((x1, y1), (x2, y1), (x2, y2), (x1, y2)), kind, True)
