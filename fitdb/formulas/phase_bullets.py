"""Current that round phase bullets carry, by diameter (J59)."""

BULLET_CURRENT_A: tuple[tuple[float, float], ...] = ((3.5, 45.0), (4.0, 70.0), (5.5, 110.0), (6.5, 140.0))
"""Diameter in mm and amperes without end; common practice, no source. No standard covers these plugs."""


def bullet_current(diameter: float) -> float:
    """Amperes that a bullet of that diameter in mm carries: those of the largest listed size it is not thinner than.

    A quarter of a millimetre is let pass for reading. Below the smallest size nothing is known, so zero is returned
    and no current passes. Source: common practice, no source.
    """
    return max((amperes for size, amperes in BULLET_CURRENT_A if diameter >= size - 0.25), default=0.0)
