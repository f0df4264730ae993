"""What a board is when it stands and leans: sag, heights, clearances, turning, mass, and how much care it asks for."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

import numpy as np
from numpy.typing import NDArray

from fitdb.formulas.deck_flex import end_slope_deg
from fitdb.model.joint import Piece
from fitdb.model.outlook import Figure, Stability
from fitdb.model.trace import Trace
from fitdb.steps.foresee.board_drive import Body
from fitdb.steps.foresee.draws import Draws
from fitdb.steps.foresee.told import Rows, told

Array = NDArray[np.float64]
GEOMETRY = "plane geometry, as in the rulebook"
# Worked-out sizes that are told as figures: the end of the names of the traces, id, title, unit, and what to name or
# read where there are none. Of several places the least is told.
SIZES = (
    ("deck.sag", "deck_sag", "sag of the deck under the rider", "mm", "the stiffness of the deck and the rider"),
    (
        "deck.mid_height",
        "deck_height",
        "underside of the deck above the ground, rider standing",
        "mm",
        "deck and trucks",
    ),
    (
        "_motor.belt_centre",
        "belt_centre",
        "motor shaft to axle where the belt is taut",
        "mm",
        "both pulleys, the belt and the mount",
    ),
    (
        "box.ground_gap",
        "box_clearance",
        "box above the ground, rider standing",
        "mm",
        "the box, the deck and the rider",
    ),
    (
        "box.ground_gap_on_bump",
        "box_clearance_bump",
        "box above the ground on a bump",
        "mm",
        "the box, the deck and the rider",
    ),
    ("_motor.ground_gap", "motor_clearance", "motor above the ground", "mm", "the motors and their mounts"),
    ("_driven_pulley.ground_gap", "pulley_clearance", "driven pulley above the ground", "mm", "the driven pulleys"),
    (
        ".bite_clearance",
        "bite_clearance",
        "wood above the wheel at full lean",
        "mm",
        "deck, trucks, wheels and the lean",
    ),
)


def body_figures(
    pieces: Mapping[str, Piece], traces: Mapping[str, tuple[Trace, ...]], body: Body | None, draws: Draws
) -> Iterator[Rows]:
    """Every figure of the standing board; those of which a reading is missing say which."""
    for name, own, title, unit, needed in SIZES:
        rows = least_of(ending(traces, name), draws)
        if own == "belt_centre" and rows is not None and rows.min() <= 0.0:
            rows, needed = None, "a belt that reaches round both pulleys"
        figure = Figure(own, title, unit, "body", None, source=GEOMETRY)
        yield told(figure, rows, draws, unknown=f"it takes {needed}, and the plan does not name all of that")
    yield from _belts(traces, draws)
    yield _end_height(traces, draws)
    yield from _beside_the_wood(traces, pieces, draws)
    yield _bite_angle(traces, pieces, draws)
    yield _turning(traces, pieces, draws)
    figure = Figure("mass", "mass of rider and board", "kg", "body", None, source="as read")
    yield told(figure, body.road.mass if body is not None else None, draws, unknown="nobody has told the masses")


def _belts(traces: Mapping[str, tuple[Trace, ...]], draws: Draws) -> Iterator[Rows]:
    """How hard the hardest worked belt is pulled, and what it bears: what it has in hand and the pull, added."""
    asked, borne = [], []
    for name, some in traces.items():
        if not name.endswith("_motor.belt_pull"):
            continue
        pull = least_of(some, draws)
        left = least_of(traces.get(name.replace("belt_pull", "belt_in_hand"), ()), draws)
        if pull is not None and left is not None:
            asked.append(pull)
            borne.append(left + pull)
    if not asked:
        return
    hardest = int(np.argmin([b[0] - a[0] for a, b in zip(asked, borne, strict=True)]))
    figure = Figure("belt_pull", "pull of the belt at the greatest motor current", "N", "pull", None, source="statics")
    yield told(figure, asked[hardest], draws)
    title = "pull that the belt bears for a moment, few teeth in mesh taken off"
    figure = Figure("belt_strength", title, "N", "pull", None, source="common practice, no source")
    yield told(figure, borne[hardest], draws)


def _beside_the_wood(
    traces: Mapping[str, tuple[Trace, ...]], pieces: Mapping[str, Piece], draws: Draws
) -> Iterator[Rows]:
    """How far a wheel stands outside the wood, sideways, going straight; nothing of wheels that stand under it."""
    deck = pieces.get("deck")
    half = draws.size(deck, "half_width_at_wheel") if deck is not None else None
    inner = least_of(ending(traces, ".inner_face"), draws)
    if half is None or inner is None or inner[0] <= half[0]:
        return
    figure = Figure("wheel_beside_wood", "wheel beside the wood, going straight", "mm", "body", None, source=GEOMETRY)
    yield told(figure, inner - half, draws)


def _end_height(traces: Mapping[str, tuple[Trace, ...]], draws: Draws) -> Rows:
    """Axle height and deck height added, of the lower end: what wheels and risers raise, whatever the deck sags."""
    ends = []
    for end in ("front", "rear"):
        height, radius = (least_of(traces.get(f"{end}.{name}", ()), draws) for name in ("deck_height", "wheel_radius"))
        if height is not None and radius is not None:
            ends.append(height + radius)
    title = "underside of the deck above the ground, over the trucks"
    figure = Figure("end_height", title, "mm", "body", None, source=GEOMETRY)
    rows = np.min(ends, axis=0) if ends else None
    return told(figure, rows, draws, unknown="it takes deck, trucks and wheels, and the plan does not name all of that")


def ending(traces: Mapping[str, tuple[Trace, ...]], name: str) -> tuple[Trace, ...]:
    """The traces of every place whose name ends so."""
    return tuple(one for own, some in traces.items() if own.endswith(name) for one in some)


def least_of(traces: tuple[Trace, ...], draws: Draws) -> Array | None:
    """The least of a size over all places where it can be told."""
    found = [rows for trace in traces if (rows := draws.of_trace(trace)) is not None]
    return np.min(found, axis=0) if found else None


def _bite_angle(traces: Mapping[str, tuple[Trace, ...]], pieces: Mapping[str, Piece], draws: Draws) -> Rows:
    """The lean at which the deck's edge meets the wheel, by the flat form: asin((H − R)/y), the less of both ends."""
    figure = Figure("bite_angle", "lean at which wood meets wheel", "deg", "body", None, source=GEOMETRY)
    deck = pieces.get("deck")
    half = draws.size(deck, "half_width_at_wheel") if deck is not None else None
    angles, never = [], False
    for end in ("front", "rear"):
        height, radius = (least_of(traces.get(f"{end}.{name}", ()), draws) for name in ("deck_height", "wheel_radius"))
        outer, inner = (
            least_of(
                tuple(t for own, some in traces.items() if own.startswith(end) and own.endswith(name) for t in some),
                draws,
            )
            for name in ("outer_face", "inner_face")
        )
        if height is None or radius is None or half is None:
            continue
        if inner is not None and inner[0] > half[0]:
            never = True  # a wheel that stands wholly outside the wood
            continue
        across = half if outer is None else np.minimum(half, outer)
        angles.append(np.degrees(np.arcsin(np.clip((height - radius) / across, -1.0, 1.0))))
    if angles:
        return told(figure, np.min(angles, axis=0), draws, note="Edges that reach round the wheel bite sooner.")
    why = "the wheels stand wholly outside the wood, so that it meets them only in a steered corner"
    return told(figure, None, draws, unknown=why if never else "it takes deck, trucks, wheels and the half width there")


def steering(traces: Mapping[str, tuple[Trace, ...]], draws: Draws) -> tuple[Array, Array] | None:
    """Turn of the front and the rear axle at full lean, deg."""
    front, rear = (least_of(traces.get(f"{end}.steer", ()), draws) for end in ("front", "rear"))
    return None if front is None or rear is None else (front, rear)


def turn_radius_rows(
    traces: Mapping[str, tuple[Trace, ...]], pieces: Mapping[str, Piece], draws: Draws, share: float = 1.0
) -> Array | None:
    """Radius of the turn in m, at a share of the sine of the full lean: R = W/(tan δ_f + tan δ_r).

    tan δ = tan λ·sin φ: the tangents grow with the sine of the lean (two kingpins: nearly).
    """
    turned, deck = steering(traces, draws), pieces.get("deck")
    base = draws.size(deck, "wheelbase") if deck is not None else None
    if turned is None or base is None:
        return None
    tangents = np.tan(np.radians(turned[0])) + np.tan(np.radians(turned[1]))
    with np.errstate(divide="ignore"):
        return np.asarray(base / 1000.0 / (tangents * share))


def full_lean(traces: Mapping[str, tuple[Trace, ...]], draws: Draws) -> Array | None:
    """Lean in degrees at which the stiffer of the trucks ends it."""
    leans = [rows for end in ("front", "rear") if (rows := least_of(traces.get(f"{end}.lean", ()), draws)) is not None]
    return np.min(leans, axis=0) if leans else None


def _turning(traces: Mapping[str, tuple[Trace, ...]], pieces: Mapping[str, Piece], draws: Draws) -> Rows:
    figure = Figure(
        "turn_radius", "tightest turn, at full lean", "m", "body", None, source="Hubbard (1979), from memory"
    )
    lean = full_lean(traces, draws)
    note = "" if lean is None else f"At a lean of {lean[0]:.0f}°."
    rows = turn_radius_rows(traces, pieces, draws)
    return told(figure, rows, draws, note=note, unknown="it takes the wheelbase, and axis and lean of both trucks")


def stability(
    pieces: Mapping[str, Piece], traces: Mapping[str, tuple[Trace, ...]], top_kmh: float | None, draws: Draws
) -> Stability:
    """How much care the steering asks for. Points of common practice, no source: a hint, never a promise, and no speed
    at which a board begins to wobble, because that depends on the rider most of all."""
    reasons: list[tuple[int, str]] = []
    front, rear = (least_of(traces.get(f"{end}.axis_angle", ()), draws) for end in ("front", "rear"))
    if front is not None and rear is not None and rear[0] > front[0] + 0.05:
        reasons.append((2, f"the rear steers more than the front ({rear[0]:.1f}° against {front[0]:.1f}°)"))
    if front is not None and front[0] > 48.0:
        reasons.append((1, f"the front steers much for its lean ({front[0]:.1f}°; calm boards have 48° at most)"))
    if any(draws.table.line_of(piece.part.part_class)[0] == "multi_kingpin_truck" for piece in pieces.values()):
        reasons.append((1, "a truck with two kingpins steers much at little lean"))
    reasons += _soft_bushings(pieces, draws)
    sag, deck = least_of(traces.get("deck.sag", ()), draws), pieces.get("deck")
    base = draws.size(deck, "wheelbase") if deck is not None else None
    if sag is not None and base is not None and (slope := end_slope_deg(float(sag[0]), float(base[0]))) > 3.0:
        reasons.append((1, f"the deck sags, which tips both steering axes by {slope:.1f}°"))
    if top_kmh is not None:
        for faster in (30.0, 40.0):
            if top_kmh > faster:
                reasons.append((1, f"it goes faster than {faster:.0f} km/h ({top_kmh:.0f} km/h)"))
    points = sum(weight for weight, _ in reasons)
    word = "calm" if points <= 1 else "care" if points <= 3 else "warning"
    return Stability(points, word, tuple(reason for _, reason in reasons))


def _soft_bushings(pieces: Mapping[str, Piece], draws: Draws) -> list[tuple[int, str]]:
    """Softer than what riders of that mass stand on: 0.25·m + 70, less 4, on the A scale."""
    rider = pieces.get("rider")
    mass = draws.size(rider, "mass") if rider is not None else None
    if mass is None:
        return []
    usual = 0.25 * float(mass[0]) + 70.0
    for seat, piece in pieces.items():
        hardness = draws.read(piece, "hardness") if seat.endswith("_bushing") else None
        if hardness is not None and hardness[0] < usual - 4.0:
            told_as = f"{hardness[0]:.0f} A; riders of that mass have {usual:.0f} A"
            return [(1, f"the bushings are soft for this rider ({told_as})")]
    return []
