"""A hanger profile in a clamp bore, each drawn or told by its form and sizes (J29). Millimetres, one side."""

import functools
from collections.abc import Sequence
from math import sqrt
from typing import get_args

from fitdb.formulas.clamp_profiles import ProfileForm, clamp_gap, polygon_across_corners, profile_outline
from fitdb.formulas.core_windows import Outline, Point

REGULAR_FORMS = ("round", "hexagon", "square")


def drawn_by_sizes(form: str, size: float, other_size: float, is_bore: bool) -> Outline | None:
    """Outline of a named form, or None where its two sizes do not make it.

    ``size`` across the way in which the clamp closes, ``other_size`` the height of a D or the second width of an
    oval. A trapezoid needs three sizes and has to be drawn. Source: geometry.
    """
    known: dict[str, ProfileForm] = {name: name for name in get_args(ProfileForm)}
    if form == "trapezoid" or form not in known:
        return None
    if form == "d_shape" and not size / 2.0 <= other_size < size:
        return None
    return profile_outline(known[form], size, other_size, is_bore=is_bore)


def enclosing_radius(form: str, size: float, other_size: float) -> float | None:
    """Radius of the smallest circle round a named form; None where its two sizes do not make it. Source: geometry."""
    if form == "round" or (form == "d_shape" and size / 2.0 <= other_size < size):
        return size / 2.0
    if form == "hexagon":
        return polygon_across_corners(size, 6) / 2.0
    if form == "square":
        return size / sqrt(2.0)
    return max(size, other_size) / 2.0 if form == "oval" else None


def inscribed_radius(form: str, size: float, other_size: float) -> float | None:
    """Radius of the largest circle in a named form, or None where its two sizes do not make it. Source: geometry."""
    if form in REGULAR_FORMS:
        return size / 2.0
    if form == "d_shape" and size / 2.0 <= other_size < size:
        return other_size / 2.0
    return min(size, other_size) / 2.0 if form == "oval" else None


def even_gap(
    profile_form: str,
    profile_size: float,
    profile_other_size: float,
    drawn_profile: Sequence[Sequence[Point]],
    bore_form: str,
    bore_size: float,
    bore_other_size: float,
    drawn_bore: Sequence[Sequence[Point]],
) -> float | None:
    """Widest even gap round the profile in the bore, one side; None if their forms and sizes do not tell it.

    ``drawn_profile`` and ``drawn_bore`` are rings, empty where nobody drew them; the first ring counts. Equal regular
    forms and everything with a circle are closed forms; equal others and drawings are asked of ``clamp_gap``; two
    different angular forms have to be drawn. Source: geometry.
    """
    if not drawn_profile and not drawn_bore:
        if profile_form == bore_form and profile_form in REGULAR_FORMS:
            return 0.5 * (bore_size - profile_size)
        if bore_form == "round":
            around = enclosing_radius(profile_form, profile_size, profile_other_size)
            return None if around is None else 0.5 * bore_size - around
        if profile_form == "round":
            inside = inscribed_radius(bore_form, bore_size, bore_other_size)
            return None if inside is None else inside - 0.5 * profile_size
        if profile_form != bore_form:
            return None
    if drawn_profile and not drawn_bore and bore_form == "round":
        import shapely

        return 0.5 * bore_size - float(shapely.minimum_bounding_radius(shapely.Polygon(drawn_profile[0])))
    profile = (
        drawn_profile[0] if drawn_profile else drawn_by_sizes(profile_form, profile_size, profile_other_size, False)
    )
    bore = drawn_bore[0] if drawn_bore else drawn_by_sizes(bore_form, bore_size, bore_other_size, True)
    if profile is None or bore is None:
        return None
    return _searched(tuple(profile), tuple(bore))


@functools.lru_cache(maxsize=512)
def _searched(profile: Outline, bore: Outline) -> float:
    """The search over shifts and turns, kept: a rule asks the same outlines again for every reading beside them."""
    return clamp_gap(profile, bore).gap_mm
