"""Threads of kingpins by the words that name them (J07)."""

from fitdb.formulas.threads import thread

_DESIGNATIONS = {"m8": "M8", "m10": "M10", "unf_5_16_24": "5/16-24", "unf_3_8_24": "3/8-24"}


def thread_pitch(word: str) -> float:
    """Pitch of a kingpin's thread, mm, by its word: m8, m10, unf_5_16_24, unf_3_8_24.

    Raises ValueError for another word. Source: ISO 261 and ASME B1.1.
    """
    try:
        return thread(_DESIGNATIONS[word]).pitch
    except KeyError:
        known = ", ".join(_DESIGNATIONS)
        raise ValueError(f"no kingpin has the thread {word!r}; known are {known}") from None
