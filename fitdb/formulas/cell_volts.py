"""Open-circuit volts of one cell over the charge that is left in it, by chemistry."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]

# Open-circuit volts from empty to full, in steps of a twentieth of the charge, of a nickel-rich cell of 5 Ah at 25 °C:
# Chen et al., Journal of The Electrochemical Society 167 (2020) 080534, by an open library of cell models.
NICKEL = (
    *(2.5, 3.1094, 3.2959, 3.4339, 3.4852, 3.5286, 3.5814, 3.629, 3.667, 3.7054, 3.7509),
    *(3.7983, 3.8406, 3.8896, 3.9479, 3.9943, 4.0421, 4.0809, 4.0967, 4.1236, 4.2),
)
# The same of an iron-phosphate cell: its flat middle is its mark. From memory of data sheets; the mean is
# four hundredths (1.2 %) above that of the published cell that the tests name, discharged slowly.
PHOSPHATE = (
    *(2.5, 2.95, 3.1, 3.17, 3.2, 3.215, 3.23, 3.245, 3.255, 3.26, 3.265),
    *(3.27, 3.275, 3.28, 3.29, 3.305, 3.315, 3.32, 3.325, 3.335, 3.45),
)
TABLES = {"nickel": NICKEL, "phosphate": PHOSPHATE}


def cell_volts(charge_left: Array, chemistry: str) -> Array:
    """Open-circuit volts of one cell, V, straight between the points of its table.

    ``charge_left`` share 0..1, of any shape. ``chemistry`` nickel or phosphate; ValueError for another.
    """
    if chemistry not in TABLES:
        raise ValueError(f"unknown chemistry {chemistry!r}: nickel or phosphate is wanted")
    volts = TABLES[chemistry]
    return np.asarray(np.interp(charge_left, np.linspace(0.0, 1.0, len(volts)), volts))
