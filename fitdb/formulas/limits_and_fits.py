"""Limits of holes, shafts, bearing rings and keys as the standards tabulate them (J10, J11, J24, J25).

Nominal sizes and results in millimetres. A band's upper edge belongs to the band ("over 6 up to and including 10").
A size or class outside these tables raises ``ValueError``: it is not known here, and is never taken as zero.
"""

from bisect import bisect_left
from dataclasses import dataclass

_BAND_UPPER_EDGES_MM = (6.0, 10.0, 18.0, 30.0)  # the first band begins over 3 mm
_SIZE_BANDS = "over 3 to 6, over 6 to 10, over 10 to 18, over 18 to 30 mm"

# ISO 286-2: (lower, upper) deviation in micrometres for each of the four bands above.
_DEVIATIONS_UM: dict[str, tuple[tuple[int, int], ...]] = {
    "H7": ((0, 12), (0, 15), (0, 18), (0, 21)),
    "H8": ((0, 18), (0, 22), (0, 27), (0, 33)),
    "H11": ((0, 75), (0, 90), (0, 110), (0, 130)),
    "g6": ((-12, -4), (-14, -5), (-17, -6), (-20, -7)),
    "h6": ((-8, 0), (-9, 0), (-11, 0), (-13, 0)),
    "h7": ((-12, 0), (-15, 0), (-18, 0), (-21, 0)),
    "h11": ((-75, 0), (-90, 0), (-110, 0), (-130, 0)),
    "k6": ((1, 9), (1, 10), (1, 12), (2, 15)),
    "p6": ((12, 20), (15, 24), (18, 29), (22, 35)),
    "s6": ((19, 27), (23, 32), (28, 39), (35, 48)),
}

TOLERANCE_CLASSES: tuple[str, ...] = tuple(_DEVIATIONS_UM)
"""The ISO 286 tolerance classes tabulated here: capitals are holes, small letters are shafts."""


def deviation(nominal_mm: float, tolerance_class: str) -> tuple[float, float]:
    """Limit deviations (lower, upper) in mm of a hole (EI, ES) or shaft (ei, es) from its nominal size.

    ``nominal_mm`` over 3 up to 30 mm; ``tolerance_class`` such as "H7" (hole) or "g6" (shaft), see TOLERANCE_CLASSES.
    Raises ValueError for a class or a size that is not tabulated here. Source: ISO 286-2.
    """
    bands = _DEVIATIONS_UM.get(tolerance_class)
    if bands is None:
        raise ValueError(
            f"tolerance class {tolerance_class!r} is not tabulated; known are {', '.join(TOLERANCE_CLASSES)} "
            "(capitals for holes, small letters for shafts)"
        )
    if not 3.0 < nominal_mm <= 30.0:
        raise ValueError(
            f"no ISO 286 limits are tabulated for a nominal size of {nominal_mm!r} mm; the bands are {_SIZE_BANDS}"
        )
    lower, upper = bands[bisect_left(_BAND_UPPER_EDGES_MM, nominal_mm)]
    return lower / 1000.0, upper / 1000.0


def bearing_bore_deviation(bore_mm: float) -> tuple[float, float]:
    """Deviation (lower, upper) in mm of the mean bore diameter Δ_dmp of a bearing of normal class: (−0.008, 0).

    ``bore_mm`` d over 2.5 up to 18 mm. Raises ValueError outside that range.
    Source: ISO 492, normal class (ABEC numbers are grades of the same kind, not qualities of running).
    """
    if not 2.5 < bore_mm <= 18.0:
        raise ValueError(
            f"no ISO 492 bore deviation is tabulated for a bearing bore of {bore_mm!r} mm; known is over 2.5 to 18 mm"
        )
    return -0.008, 0.0


def bearing_outer_deviation(outer_mm: float) -> tuple[float, float]:
    """Deviation (lower, upper) in mm of the mean outside diameter Δ_Dmp of a bearing of normal class.

    ``outer_mm`` D over 6 up to 18 mm: (−0.008, 0); over 18 up to 30 mm: (−0.009, 0). Raises ValueError outside.
    Source: ISO 492, normal class; the row over 6 to 18 mm is from memory of the same table.
    """
    if not 6.0 < outer_mm <= 30.0:
        raise ValueError(
            f"no ISO 492 outside deviation is tabulated for a bearing of {outer_mm!r} mm outside diameter; "
            "known is over 6 to 30 mm"
        )
    return (-0.008, 0.0) if outer_mm <= 18.0 else (-0.009, 0.0)


def ring_width_deviation(bore_mm: float) -> tuple[float, float]:
    """Deviation (lower, upper) in mm of the ring width Δ_Bs of a bearing of normal class: (−0.12, 0).

    ``bore_mm`` d over 2.5 up to 18 mm: the standard sorts widths by bore. Raises ValueError outside that range.
    Source: ISO 492, normal class.
    """
    if not 2.5 < bore_mm <= 18.0:
        raise ValueError(
            f"no ISO 492 width deviation is tabulated for a bearing bore of {bore_mm!r} mm; known is over 2.5 to 18 mm"
        )
    return -0.12, 0.0


@dataclass(frozen=True)
class ParallelKey:
    """Parallel key and its keyways: key ``width`` b and ``height`` h, ``hub_depth`` t₂, ``shaft_depth`` t₁, and the
    amount ``depth_tolerance`` by which both keyways may be deeper; mm."""

    width: float
    height: float
    hub_depth: float
    shaft_depth: float
    depth_tolerance: float = 0.1


_KEY_SHAFT_UPPER_EDGES_MM = (8.0, 10.0, 12.0, 17.0)  # the first row begins over 6 mm
_KEYS = (
    ParallelKey(2.0, 2.0, 1.0, 1.2),
    ParallelKey(3.0, 3.0, 1.4, 1.8),
    ParallelKey(4.0, 4.0, 1.8, 2.5),
    ParallelKey(5.0, 5.0, 2.3, 3.0),
)


def parallel_key(shaft_mm: float) -> ParallelKey:
    """The parallel key which the standard gives a shaft of that diameter.

    ``shaft_mm`` d over 6 up to 17 mm. Raises ValueError outside that range.
    Never use it to guess a motor's key: many 8 mm motor shafts carry a 3 mm key (common practice, no source), so the
    key width is a reading of its own. Source: ISO/R 773, DIN 6885-1.
    """
    if not 6.0 < shaft_mm <= 17.0:
        raise ValueError(f"no parallel key is tabulated for a shaft of {shaft_mm!r} mm; the rows run over 6 to 17 mm")
    return _KEYS[bisect_left(_KEY_SHAFT_UPPER_EDGES_MM, shaft_mm)]
