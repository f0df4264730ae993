"""Where deck, axle and wheel stand: deck over axle by mount style, wheel along the axle, grids and wedges (J01 to J08).

Lengths in mm, angles in degrees. y counts from the board's middle plane outward along the axle.
"""

from collections.abc import Sequence

SIX_HOLE_SECOND_LENGTH_MM = 9.525
"""A six-hole pattern is two four-hole grids with one end in common: 63.5 and 53.975 mm, 3/8 in apart. Common practice,
no source."""


def deck_height_over_axle(
    mount_style: str,
    axle_to_deck_face: float,
    plate_thickness: float,
    deck_thickness: float,
    risers: Sequence[float] = (),
    plate_pocket_depth: float | None = None,
) -> float:
    """Height H of the deck's underside over the axle's centre, mm.

    top, dropped: H = h + Σt; flush: H = h + Σt − pocket; drop_through: H = h − t_plate − t_deck − Σt, because the
    plate's flange lies on the deck's top, so a riser lifts the plate off the wood and lets the wood hang lower.

    ``mount_style`` one of top, dropped, flush, drop_through; ``axle_to_deck_face`` h, axle centre to the face of the
    plate that touches the deck in a top mount; ``risers`` the thicknesses t of everything between plate and deck;
    ``plate_pocket_depth`` of a flush mount, by default the thickness of the plate (flush as the word says). A dropped
    deck stands at its ends as a top mount does. Raises ValueError for another style. Source: plane geometry.
    """
    pile = sum(risers)
    if mount_style in ("top", "dropped"):
        return axle_to_deck_face + pile
    if mount_style == "flush":
        return axle_to_deck_face + pile - (plate_thickness if plate_pocket_depth is None else plate_pocket_depth)
    if mount_style == "drop_through":
        return axle_to_deck_face - plate_thickness - deck_thickness - pile
    raise ValueError(
        f"deck_height_over_axle: mount style {mount_style!r} is not known; it is top, dropped, flush or drop_through"
    )


def bearing_middle_from_middle(
    hanger_width: float, inboard_pile: Sequence[float], bearing_width: float, seat_gap: float
) -> float:
    """y of the middle between a wheel's two bearings: W/2 + Σ pile + bearing + gap/2, mm.

    ``hanger_width`` W shoulder to shoulder, ``inboard_pile`` everything on the axle between the shoulder and the inner
    bearing, ``seat_gap`` the distance the wheel's core keeps between the bearings. Source: plane geometry.
    """
    return 0.5 * hanger_width + sum(inboard_pile) + bearing_width + 0.5 * seat_gap


def nearest_grid_mismatch(length: float, hole_count: float, other_length: float, other_hole_count: float) -> float:
    """Signed difference of two hole-grid lengths, mm: of the pairs that the parts offer, the one nearest to zero.

    A pattern of six holes or more offers its length and the length less SIX_HOLE_SECOND_LENGTH_MM. Common practice,
    no source.
    """
    ours = (length, length - SIX_HOLE_SECOND_LENGTH_MM) if hole_count >= 6 else (length,)
    theirs = (other_length, other_length - SIX_HOLE_SECOND_LENGTH_MM) if other_hole_count >= 6 else (other_length,)
    return min((mine - yours for mine in ours for yours in theirs), key=abs)


def signed_wedge_change(angles: Sequence[float], thick_ends: Sequence[str]) -> float:
    """What wedges do to the steering axis, degrees: + thick end toward the middle of the board, − toward its end.

    Source: plane geometry. Raises ValueError for another word than toward_middle and toward_end.
    """
    change = 0.0
    for angle, thick_end in zip(angles, thick_ends, strict=True):
        if thick_end not in ("toward_middle", "toward_end"):
            raise ValueError(f"signed_wedge_change: the thick end lies toward_middle or toward_end, not {thick_end!r}")
        change += angle if thick_end == "toward_middle" else -angle
    return change
