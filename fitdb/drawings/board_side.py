"""A whole board from its right side, to scale: wheels on the ground, deck as it hangs under the rider, box, drive."""

from __future__ import annotations

import itertools
import math
from dataclasses import dataclass

from fitdb.drawings.board_readings import BOXES, ENDS, PLACES, RISERS, BoardReadings, end_of, less, measure, read_range
from fitdb.drawings.dimensions import (
    LETTER,
    ROW,
    Callout,
    Shapes,
    across,
    extent,
    notes_below,
    over_the_ground,
    scale_bar,
    upright,
)
from fitdb.drawings.shapes import Circle, Drawing, Label, Line
from fitdb.model.finding import Range

STEPS = 48


@dataclass(frozen=True, slots=True)
class Underside:
    """The deck's underside along the board: heights at both axles and at mid, and a platform that lies lower by `drop`
    between x = `drop_from` and `drop_to`. Beyond the axles it runs on straight, as an unloaded end of a beam does.
    """

    rear: float
    front: float
    mid: float
    wheelbase: float
    drop: float = 0.0
    drop_from: float = 0.0
    drop_to: float = 0.0

    def at(self, x: float) -> float:
        t = 2.0 * x / self.wheelbase
        bulge = self.mid + self.drop - (self.rear + self.front) / 2.0
        level = (self.rear + self.front) / 2.0 + (self.front - self.rear) / 2.0 * t
        bend = bulge * (1.0 - t * t) if abs(t) <= 1.0 else -2.0 * bulge * (abs(t) - 1.0)
        return level + bend - self.drop * self._share(x)

    def _share(self, x: float) -> float:
        """How much of the drop is reached: ramps as long as the drop is deep."""
        if not self.drop:
            return 0.0
        return min(max(min(x - self.drop_from, self.drop_to - x) / self.drop, 0.0), 1.0)


def side_drawing(board: BoardReadings) -> Drawing | None:
    """None where the wheelbase is not known, or how high any axle stands."""
    radii = {end: board.size(f"{end}.wheel_radius") for end in ENDS}
    if board.wheelbase is None or not any(radii.values()):
        return None
    for end in ENDS:
        board.known(f"{end} wheels", height_of_the_axle=radii[end])
    deck = _underside(board, radii)
    shapes: Shapes = []
    callouts: list[Callout] = []
    if deck is not None:
        shapes += _deck(board, deck)
    for end in ENDS:
        radius = radii[end]
        if radius is None:
            continue
        if deck is not None:
            shapes += _truck(board, end, radius, deck)
        drawn, gaps = _drives(board, end, radius)
        shapes += [*_wheel(board, end, radius), *drawn]
        callouts += gaps
    for box in BOXES:
        if board.has(box):
            drawn, gaps = _box(board, box, deck)
            shapes += drawn
            callouts += gaps
    return _with_sizes(board, radii, deck, shapes, callouts)


def _with_sizes(
    board: BoardReadings,
    radii: dict[str, float | None],
    deck: Underside | None,
    shapes: Shapes,
    callouts: list[Callout],
) -> Drawing:
    left, low, right, high = extent(shapes)
    told = [f"{' '.join(one.words)}." for one in callouts]
    body: Shapes = [Line(((left - 20, 0.0), (right + 20, 0.0)), "ground"), *shapes]
    row = min(low, 0.0) - 22
    body += over_the_ground(callouts, row)
    for end in ENDS:
        radius, height = radii[end], board.sizes.get(f"{end}.deck_height")
        if radius is None or height is None:
            continue
        side, x = ("left", left - 34) if end == "rear" else ("right", right + 34)
        top = radius + height.nominal
        body += [Line(((board.axle(end), z), (x, z)), "note") for z in (radius, top)]
        body += upright(x, radius, top, ("deck over axle", measure(height)), side)
        told.append(f"Deck over the {end} axle {measure(height)}.")
    mid = board.sizes.get("deck.mid_height")
    if mid is not None and deck is not None:
        words = f"deck over ground at mid, rider standing: {measure(mid)}"
        body += [Line(((0.0, mid.nominal), (0.0, high + 12)), "note"), *upright(0.0, 0.0, mid.nominal, (), "left")]
        body.append(Label(0.0, high + 16, words, "middle", True))
        told.append(f"{words.capitalize()}.")
        high += ROW + 6
    wheelbase = board.sizes.get("wheelbase") or read_range(board.reading("deck", "wheelbase"))
    if wheelbase is not None:
        rear, front = board.axle("rear"), board.axle("front")
        words = f"wheelbase {measure(wheelbase)}"
        body += across(rear, front, high + 20, words)
        body += [
            Line(((board.axle(end), radius), (board.axle(end), high + 25)), "note")
            for end, radius in radii.items()
            if radius is not None
        ]
        told.append(f"{words.capitalize()}.")
    left, low, right, _ = extent(body)
    body += [*scale_bar(left, low - 26), Label(right, low - 31, "nose this way →", "end")]
    notes = board.notes()
    body += notes_below(notes, left, low - 31 - 2 * ROW, right - left)
    words = " ".join(("The board from its right side, wheels on the ground, nose to the right.", *told, *notes))
    return Drawing("Side view", words, "xz", tuple(body))


def _underside(board: BoardReadings, radii: dict[str, float | None]) -> Underside | None:
    """None where the deck is not named, or its height over an axle is not known."""
    if not board.has("deck"):
        return None
    heights = {end: board.size(f"{end}.deck_height") for end in ENDS}
    asked = {f"height_over_the_{end}_axle": heights[end] for end in ENDS}
    levels = [radius + height for end in ENDS if (radius := radii[end]) is not None and (height := heights[end])]
    if not board.known("deck", **asked) or len(levels) < 2 or board.wheelbase is None:
        return None
    rear, front = levels
    mid = board.size("deck.mid_height")
    board.known("bend of the deck", height_at_mid_under_the_rider=mid)
    drop = 0.0
    if board.word("deck", "mount_style") == "dropped":
        read = board.mm("deck", "platform_drop")
        if board.known("step of the dropped deck", how_far_the_platform_lies_below_the_ends=read) and read:
            drop = read
            board.sketch("where the ramps of the dropped deck begin")
    if mid is None:
        mid = (rear + front) / 2.0 - drop
    reach = {end: (board.mm(f"{end}_truck", "plate_length") or 0.0) / 2.0 for end in ENDS}
    return Underside(
        rear,
        front,
        mid,
        board.wheelbase,
        drop,
        board.axle("rear") + reach["rear"],
        board.axle("front") - reach["front"],
    )


def _deck(board: BoardReadings, deck: Underside) -> Shapes:
    length, thick = board.mm("deck", "length"), board.mm("deck", "thickness")
    if board.known("nose and tail", length_of_the_deck=length):
        board.sketch("nose and tail (equally long, straight on)")
    half = max(length or 0.0, deck.wheelbase) / 2.0
    xs = {-half + 2.0 * half * step / STEPS for step in range(STEPS + 1)} | {0.0}
    if deck.drop:
        xs |= {deck.drop_from, deck.drop_from + deck.drop, deck.drop_to - deck.drop, deck.drop_to}
    under = [(x, deck.at(x)) for x in sorted(xs)]
    if not board.known("upper side of the deck", thickness=thick) or thick is None:
        return [Line(tuple(under), "first")]
    upper = [(x, z + thick) for x, z in under]
    shapes: Shapes = [Line((*under, *reversed(upper)), "first", True)]
    concave = board.mm("deck", "concave")
    if concave:  # the edges of a hollow deck stand up over its middle
        shapes.append(Line(tuple((x, z + concave) for x, z in upper if abs(x) <= deck.wheelbase / 2.0), "note"))
    return shapes


def _truck(board: BoardReadings, end: str, radius: float, deck: Underside) -> Shapes:
    """Plate, risers, and a sketch of what joins plate and axle."""
    seat, axle = f"{end}_truck", board.axle(end)
    shapes: Shapes = []
    length, thick = board.mm(seat, "plate_length"), board.mm(seat, "plate_thickness")
    style, wood = board.word("deck", "mount_style"), board.mm("deck", "thickness")
    seats = [f"{end}_{name}" for name in RISERS if board.has(f"{end}_{name}")]
    risers = [board.mm(one, "thickness") for one in seats]
    pile = sum(one for one in risers if one is not None)
    asked: dict[str, object] = {
        "length_of_the_plate": length,
        "thickness_of_the_plate": thick,
        "way_of_mounting": style,
    }
    if style == "drop_through":
        asked["thickness_of_the_deck"] = wood
    if None in risers:
        asked["thickness_of_a_riser"] = None
    if board.has(seat) and board.known(f"{end} truck", **asked) and length and thick:
        board.sketch("form of the trucks between plate and axle")
        level = deck.at(axle)
        if style == "drop_through":
            seam, pile_to = level + (wood or 0.0), level + (wood or 0.0) + pile
            plate = (pile_to, pile_to + thick)
        else:
            pocket = 0.0
            if style == "flush":
                pocket = board.mm("deck", "plate_pocket_depth") or thick
            seam, pile_to = level + pocket, level + pocket - pile
            plate = (pile_to - thick, pile_to)
        if pile:
            shapes.append(_rectangle(axle - length / 2, axle + length / 2, seam, pile_to, "gap"))
        shapes.append(_rectangle(axle - length / 2, axle + length / 2, *plate, "metal"))
        under, neck = plate[0], min(12.0, radius / 2)
        corners = ((-length / 4, under), (length / 4, under), (neck, radius), (-neck, radius))
        shapes.append(Line(tuple((axle + x, z) for x, z in corners), "metal", True))
    thick_axle = board.mm(f"{end}_hanger", "axle_diameter") or board.mm(seat, "axle_diameter") or 8.0
    return [*shapes, Circle(axle, radius, thick_axle / 2, "metal")]


def _wheel(board: BoardReadings, end: str, radius: float) -> Shapes:
    axle = board.axle(end)
    shapes: Shapes = [Circle(axle, radius, radius, "wheel")]
    inner: set[tuple[float, str]] = set()
    for place in (place for place in PLACES if end_of(place) == end):
        core, can = board.mm(f"{place}_wheel", "core_outer_diameter", "core"), None
        if board.has(f"{place}_hub_motor"):
            can = board.mm(f"{place}_hub_motor", "can_diameter")
            board.known(f"{place.replace('_', ' ')} hub motor", diameter=can)
        inner |= {(size / 2, kind) for size, kind in ((core, "note"), (can, "motor")) if size}
    return [*shapes, *(Circle(axle, radius, size, kind) for size, kind in sorted(inner, reverse=True) if size < radius)]


def _drives(board: BoardReadings, end: str, radius: float) -> tuple[Shapes, list[Callout]]:
    """The drives of one end, left and right; alike ones once, on what they name together."""
    found: dict[tuple[Line | Circle | Label, ...], None] = {}
    gaps: dict[tuple[float, float, str, str], list[str]] = {}
    for place in (place for place in PLACES if end_of(place) == end):
        shapes, callouts = _drive(board, place, radius)
        found.setdefault(tuple(shapes))
        for x, z, name, size in callouts:
            gaps.setdefault((x, z, name, size), []).append(place)
    both = sum(any(board.has(f"{end}_{side}_{seat}") for seat in DRIVES) for side in ("left", "right")) == 2
    callouts_of = []
    for (x, z, name, size), places in gaps.items():
        side = "" if len(places) == 2 or not both else f"{places[0].split('_')[1]} "
        callouts_of.append(Callout(x, z, (f"{side}{name} over ground", size), z < 0))
    return list(itertools.chain.from_iterable(found)), callouts_of


DRIVES = ("motor", "driven_pulley", "gear_drive", "direct_drive")


def _drive(board: BoardReadings, place: str, radius: float) -> tuple[Shapes, list[tuple[float, float, str, str]]]:
    axle, spoken = board.axle(end_of(place)), place.replace("_", " ")
    shapes: Shapes = []
    gaps: list[tuple[float, float, str, str]] = []
    wheel = board.sizes.get(f"{end_of(place)}.wheel_radius")
    for seat, attribute, name, halved in (
        ("gear_drive", "housing_radius", "gear housing", 1.0),
        ("direct_drive", "can_diameter", "direct drive", 0.5),
    ):
        if not board.has(f"{place}_{seat}"):
            continue
        read = read_range(board.reading(f"{place}_{seat}", attribute))
        if board.known(f"{spoken} {name}", size=read) and read is not None:
            reach = Range(read.low * halved, read.nominal * halved, read.high * halved, "mm")
            shapes.append(Circle(axle, radius, reach.nominal, "motor"))
            gap = board.sizes.get(f"{place}_{seat}.ground_gap") or (less(wheel, reach) if wheel else None)
            if gap is not None:
                gaps.append((axle, gap.nominal, name, measure(gap)))
    if board.has(f"{place}_motor"):
        at, can = board.motor_at(place), board.mm(f"{place}_motor", "can_diameter")
        if board.known(f"{spoken} motor", diameter=can) and can is not None and at is not None:
            x, z = axle + at[0], radius + at[1]
            shapes.append(Circle(x, z, can / 2, "motor"))
            guard = board.mm(f"{place}_bash_guard", "thickness")
            if guard:
                shapes.append(_rectangle(x - can / 4, x + can / 4, z - can / 2 - guard, z - can / 2, "metal"))
            gap = board.sizes.get(f"{place}_motor.ground_gap")
            if gap is not None:
                gaps.append((x, gap.nominal, "bash guard" if guard else "motor", measure(gap)))
            shapes += _belt(board, place, (axle, radius), (x, z))
    if board.has(f"{place}_driven_pulley"):
        seat = f"{place}_driven_pulley"
        pitch, flange = board.pitch_radius(seat), board.mm(seat, "flange_height")
        if board.known(f"{spoken} driven pulley", teeth_and_pitch=pitch) and pitch:
            shapes.append(Circle(axle, radius, pitch + (flange or 0.0), "pulley"))
        gap = board.sizes.get(f"{seat}.ground_gap")
        if gap is not None and pitch:
            gaps.append((axle, gap.nominal, "pulley", measure(gap)))
    return shapes, gaps


def _belt(board: BoardReadings, place: str, wheel: tuple[float, float], motor: tuple[float, float]) -> Shapes:
    """The pulley on the motor, and the belt as two straight runs from pitch circle to pitch circle."""
    if not board.has(f"{place}_drive_pulley"):
        return []
    small = board.pitch_radius(f"{place}_drive_pulley")
    if not board.known(f"{place.replace('_', ' ')} drive pulley", teeth_and_pitch=small) or small is None:
        return []
    shapes: Shapes = [Circle(*motor, small, "pulley")]
    large = board.pitch_radius(f"{place}_driven_pulley")
    apart = math.dist(wheel, motor)
    if large is None or not board.has(f"{place}_belt") or apart <= abs(large - small):
        return shapes
    line = math.atan2(motor[1] - wheel[1], motor[0] - wheel[0])
    lean = math.acos((large - small) / apart)
    for turn in (line + lean, line - lean):
        way = (math.cos(turn), math.sin(turn))
        run = tuple((x + r * way[0], z + r * way[1]) for (x, z), r in ((wheel, large), (motor, small)))
        shapes.append(Line(run, "belt"))
    return shapes


def _box(board: BoardReadings, box: str, deck: Underside | None) -> tuple[Shapes, list[Callout]]:
    """The box under the deck, and what lies between them; its height over the ground hangs from what is worked out."""
    span, depth = board.box_span(box), board.mm(box, "depth")
    gap = board.sizes.get(f"{box}.ground_gap")
    if gap is None and box == "pocket" and not board.has("box"):
        gap = board.sizes.get("box.ground_gap")
    if not board.known(BOXES[box], depth=depth) or span is None or depth is None:
        return [], []
    rear, front = span
    skid = board.mm(f"{box}_skid_plate", "thickness") or 0.0
    if gap is None:
        board.known(f"{BOXES[box]} over ground", height_of_the_deck_at_mid_or_what_lies_between=None)
        if deck is None:
            return [], []
        low = deck.at((rear + front) / 2) - depth
    else:
        low = gap.nominal + skid
    shapes: Shapes = []
    top = low + depth
    if deck is not None and gap is not None:
        edge = [(rear + (front - rear) * step / 12, top) for step in range(13)]
        wood = [(x, max(deck.at(x), top)) for x, _ in edge]
        if max(z for _, z in wood) - top > 0.3:
            shapes.append(Line((*edge, *reversed(wood)), "gap", True))
    shapes.append(_rectangle(rear, front, low, top, "box"))
    if skid:
        shapes.append(_rectangle(rear, front, low - skid, low, "metal"))
    others = [board.box_span(one) for one in BOXES if one < box and board.has(one)]
    clear = all(other is None or other[1] <= rear or other[0] >= front for other in others)
    if depth > LETTER * 1.3 and clear:  # two boxes at one place would lie on each other's names
        shapes.append(Label(rear + (front - rear) * 0.75, low + depth / 2 - 5, BOXES[box], "middle"))
    callouts = []
    if gap is not None:
        name = f"{BOXES[box].replace('box', 'skid plate') if skid else BOXES[box]} over ground"
        callouts.append(Callout(rear + (front - rear) / 4, gap.nominal, (name, measure(gap)), gap.nominal < 0))
    return shapes, callouts


def _rectangle(x1: float, x2: float, z1: float, z2: float, kind: str) -> Line:
    return Line(((x1, z1), (x2, z1), (x2, z2), (x1, z2)), kind, True)
