"""Heat of a controller in its box: whether it reaches the wall (J71)."""

from collections.abc import Sequence

METAL_SHELLS = ("alloy",)


def way_of_the_heat(shell: str, pads: Sequence[str]) -> str:
    """`joined` where a plate, or a pad against metal, leads the heat to the wall; `air` where air stands between.

    ``shell`` is what the box is made of, ``pads`` the forms of what lies between controller and wall: `soft_pad` or
    `metal_plate`. A soft pad alone against plastic heats one spot of it and counts as air.
    Source: common practice, no source.
    """
    if "metal_plate" in pads or (pads and shell in METAL_SHELLS):
        return "joined"
    return "air"


def share_left_in_box(shell: str, pads: Sequence[str], in_still_air: float) -> float:
    """Share of its rated continuous current that a controller gives in the box: all of it where it is joined to the
    wall, else ``in_still_air`` (0.6 to 0.7). Source: common practice, no source.
    """
    return 1.0 if way_of_the_heat(shell, pads) == "joined" else in_still_air
