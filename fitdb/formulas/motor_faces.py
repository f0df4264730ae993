"""Screws between a motor's face and the slots of its mount (J27, J28)."""

import math

THREAD_DIAMETERS: dict[str, float] = {
    "m3": 3.0,
    "m4": 4.0,
    "m5": 5.0,
    "m6": 6.0,
    "m8": 8.0,
    "m10": 10.0,
    "m12": 12.0,
    "unc_8_32": 4.1656,
    "unf_10_32": 4.826,
    "unf_5_16_24": 7.9375,
    "unf_3_8_24": 9.525,
}
"""Major diameter in mm by the word for the thread. Source: ISO 261, ASME B1.1."""


def thread_diameter(thread: str) -> float:
    """Major diameter in mm of a thread named by its word, such as ``m4``; ValueError for one without a row."""
    if thread not in THREAD_DIAMETERS:
        raise ValueError(f"no diameter is tabulated for the thread {thread!r}; known are {', '.join(THREAD_DIAMETERS)}")
    return THREAD_DIAMETERS[thread]


def screws_in_line(face_holes: int, slots: int, face_spacing: str, slot_spacing: str) -> int:
    """How many screws stand over a slot when both patterns are evenly spaced on one circle: gcd(n_face, n_slots).

    ``face_spacing`` and ``slot_spacing`` are ``even`` or ``uneven``; 0 where one is uneven, because counts then say
    nothing. Six holes over four slots share only two directions. Raises ValueError for a negative count.
    Source: geometry of regular polygons.
    """
    if face_holes < 0 or slots < 0:
        raise ValueError(f"counts of holes cannot be negative, got {face_holes!r} and {slots!r}")
    return math.gcd(face_holes, slots) if face_spacing == slot_spacing == "even" else 0
