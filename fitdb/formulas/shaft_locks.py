"""How a drive pulley is held on the motor shaft: what carries the torque, and the metal left over the keyway (J24,
J25).

Lengths in mm, torques in N m.
"""

from collections.abc import Sequence

from fitdb.formulas.belts import BELT_PROFILES, root_wall_over_keyway
from fitdb.model.rule import NOTHING_TO_GUARD, NothingToGuard

# Depth t2 of the hub's keyway by key width: ISO/R 773, DIN 6885-1. No keyway, no depth.
_HUB_KEYWAY_DEPTHS = ((0.0, 0.0), (2.0, 1.0), (3.0, 1.4), (4.0, 1.8), (5.0, 2.3))

# Pitch-line differential a and depth of the teeth h, mm. Curvilinear: ISO 13050. The others are from memory:
# modified curvilinear forms have the differential of the curvilinear form of their pitch; trapezoidal pulleys
# (ISO 5296) are cut to the groove depth given here, which is deeper than the belt's tooth.
TOOTH_DEPTHS: dict[str, tuple[float, float]] = {
    "curvilinear_3": (BELT_PROFILES["H3M"].pitch_line_differential, BELT_PROFILES["H3M"].tooth_height),
    "curvilinear_5": (BELT_PROFILES["H5M"].pitch_line_differential, BELT_PROFILES["H5M"].tooth_height),
    "curvilinear_8": (BELT_PROFILES["H8M"].pitch_line_differential, BELT_PROFILES["H8M"].tooth_height),
    "modified_curvilinear_3": (0.381, 1.14),
    "modified_curvilinear_5": (0.5715, 1.93),
    "modified_curvilinear_8": (0.6858, 3.36),
    "trapezoidal_5": (0.5, 1.95),
    "trapezoidal_10": (1.0, 3.4),
    "trapezoidal_inch_5": (0.254, 1.40),
}

BUSH = "bush"
"""What ``lock_in_use`` says where a reducing bush lies between: the key, flat or screw does not reach the shaft."""


def hub_keyway_depth(key_width: float) -> float:
    """Depth t₂ in mm of the keyway in a hub for a parallel key of that width; on a straight line between rows.

    ``key_width`` in mm; at or below 0 there is no keyway, above 5 the last slope goes on.
    Source: ISO/R 773, DIN 6885-1: 2 → 1.0, 3 → 1.4, 4 → 1.8, 5 → 2.3 mm.
    """
    if key_width <= 0.0:
        return 0.0
    rows = _HUB_KEYWAY_DEPTHS
    upper = next((i for i in range(1, len(rows)) if key_width <= rows[i][0]), len(rows) - 1)
    (w0, t0), (w1, t1) = rows[upper - 1], rows[upper]
    return t0 + (t1 - t0) * (key_width - w0) / (w1 - w0)


def root_wall(teeth: float, pitch: float, tooth_form: str, bore: float, lock: str, keyway_width: float) -> float:
    """Metal in mm between the tooth roots of a drive pulley and its bore, or the bottom of its keyway if it has one.

    ``teeth``, ``pitch`` in mm and ``tooth_form`` (a word of TOOTH_DEPTHS) of the pulley; ``bore`` in mm; ``lock`` the
    word for how it holds: only ``key`` means that a keyway of ``keyway_width`` is cut. Negative: bore or keyway breaks
    into the teeth. Raises ValueError for a malformed number or a tooth form without a row.
    Source: geometry; profiles ISO 13050, keyways DIN 6885-1.
    """
    if tooth_form not in TOOTH_DEPTHS:
        raise ValueError(
            f"no tooth depth is tabulated for the form {tooth_form!r}; known are {', '.join(TOOTH_DEPTHS)}"
        )
    differential, depth = TOOTH_DEPTHS[tooth_form]
    keyway = hub_keyway_depth(keyway_width) if lock == "key" else 0.0
    return root_wall_over_keyway(teeth, pitch, bore, keyway, differential, depth)


def lock_in_use(lock: str, shaft_form: str, bushes: Sequence[str] = ()) -> str:
    """What the pulley's lock meets on the shaft, as one word: ``key_on_key``, ``set_screw_on_flat`` and so on.

    ``lock`` of the pulley (key, flat, set_screw, round, bonded), ``shaft_form`` (round, flat, key) and one word for
    every reducing bush between. With a bush it is always ``bush``: the key, flat or screw ends at the sleeve.
    """
    return BUSH if bushes else f"{lock}_on_{shaft_form}"


def torque_borne(
    torque: float, lock: str, shaft_form: str, bushes: Sequence[str], *pairs: str
) -> float | NothingToGuard:
    """The torque that one kind of lock has to carry: all of it where it is the lock in use, else nothing to guard.

    ``torque`` in N m at the shaft; ``pairs`` the words of ``lock_in_use`` that count as that kind.
    """
    return torque if lock_in_use(lock, shaft_form, bushes) in pairs else NOTHING_TO_GUARD
