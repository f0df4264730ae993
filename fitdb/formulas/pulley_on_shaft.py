"""Where a drive pulley stands on the motor shaft when its teeth lie in the belt's plane (J23, J26). Lengths in mm.

x counts outward from the outer face of the mount's plate. A pulley is a toothed section with two flanges and, at one
end of it, a hub; its bore runs through all of it.
"""

TOWARD_MOTOR = "toward_motor"
TOWARD_END = "toward_end"


def pulley_start(belt_plane: float, overall_length: float, hub_length: float, hub_side: str) -> float:
    """Place x at which the pulley begins, on the side of the plate, when its belt plane lies at ``belt_plane``.

    x = x_belt − (l ± l_hub)/2: the toothed section is l − l_hub long with the belt in its middle, and the hub lies
    before it (``hub_side`` toward_motor, +) or behind it (toward_end, −). ``overall_length`` l, ``hub_length`` l_hub.
    Negative: the pulley would stand in the plate. Raises ValueError for another word. Source: geometry.
    """
    if hub_side not in (TOWARD_MOTOR, TOWARD_END):
        raise ValueError(f"hub side must be {TOWARD_MOTOR} or {TOWARD_END}, got {hub_side!r}")
    hub_before = hub_length if hub_side == TOWARD_MOTOR else -hub_length
    return belt_plane - 0.5 * (overall_length + hub_before)


def shaft_in_pulley(
    shaft_beyond_plate: float, belt_plane: float, overall_length: float, hub_length: float, hub_side: str
) -> float:
    """Length of shaft inside a pulley whose belt plane lies at ``belt_plane``: g − x_start, before the far end counts.

    ``shaft_beyond_plate`` g; other arguments and errors as ``pulley_start``. More than ``overall_length`` means that
    the shaft stands out at the far end. Source: geometry.
    """
    return shaft_beyond_plate - pulley_start(belt_plane, overall_length, hub_length, hub_side)
