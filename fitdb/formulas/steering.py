"""Lean to steer: how a leaned truck turns its axle, and what changes the angle of its steering axis.

Signs used throughout: the board rides toward its front; a steering axis of an ordinary truck rises toward the
nearer end of the board, and its angle is measured from the horizontal (from the deck plane when the deck is
level).
"""

from math import atan, degrees, radians, sin, tan


def steer_deg(axis_angle_deg: float, lean_deg: float) -> float:
    """Steer angle of one single-kingpin truck.

    tan δ = tan λ · sin φ, with λ = ``axis_angle_deg`` the steering axis above the deck plane (0 to below 90
    degrees), φ = ``lean_deg`` the lean of the deck, δ the angle by which the axle turns in the ground plane.
    Odd in φ. Returns degrees. Raises ValueError if the axis is not in 0 <= λ < 90. Source: Hubbard, J. Appl.
    Mech. 46 (1979) 931, from memory; agrees with an independent vector rotation.
    """
    if not 0.0 <= axis_angle_deg < 90.0:
        raise ValueError(
            f"steer_deg: axis_angle_deg is {axis_angle_deg}, but a steering axis lies from 0 to below 90"
            " degrees above the deck plane; measure it from the deck plane, not from the vertical"
        )
    return degrees(atan(tan(radians(axis_angle_deg)) * sin(radians(lean_deg))))


def two_kingpin_steer_deg(
    first_axis_angle_deg: float, first_lean_deg: float, second_axis_angle_deg: float, second_lean_deg: float
) -> float:
    """Steer angle of a truck with two kingpins in series: δ ≈ φ₁·tan λ₁ + φ₂·tan λ₂, degrees in and out.

    φ₁ and φ₂ are the shares of the lean that each kingpin takes; together they are the lean of the deck. The
    softer bushing takes more, and an unmeasured split leaves the steer known to about ±25 % (common practice,
    no source). First order in the leans, and high beyond: kingpins with parallel axes turn as one with the whole
    lean, so at 50 degrees and 13 + 13 degrees of lean the chain of rotations steers 27.6 degrees where this sum
    says 31.0.
    Source: common practice, no source.
    """
    return first_lean_deg * tan(radians(first_axis_angle_deg)) + second_lean_deg * tan(radians(second_axis_angle_deg))


def turn_radius(wheelbase: float, front_steer_deg: float, rear_steer_deg: float) -> float:
    """Radius of the turn, in the unit of ``wheelbase`` W: R = W / (tan δf + tan δr).

    Measured from the centre of the turn to the board's long axis. Both steer angles are positive when each
    axle turns so as to help the turn. A board whose axles do not turn, or turn alike, has no radius:
    ValueError. Source: plane geometry (the two axle lines meet in the centre of the turn).
    """
    turn = tan(radians(front_steer_deg)) + tan(radians(rear_steer_deg))
    if turn == 0.0:
        raise ValueError(
            f"turn_radius: front steer {front_steer_deg} and rear steer {rear_steer_deg} degrees add up to no"
            " turn, so the board runs straight and has no turn radius; ask at a lean other than zero"
        )
    return wheelbase / turn


def wedge_axis_change_deg(wedge_deg: float, *, thick_end_toward_middle: bool) -> float:
    """Change of the steering-axis angle by a wedge between deck and baseplate, degrees.

    Thick end toward the middle of the board raises the axis angle by the angle of the wedge, thick end toward
    the board's own end lowers it. The same turn holds for front and rear. Source: plane geometry.
    """
    return wedge_deg if thick_end_toward_middle else -wedge_deg


def nose_down_deg(front_deck_height: float, rear_deck_height: float, wheelbase: float) -> float:
    """Tilt of the deck from unequal heights, degrees, positive when the nose is lower than the tail.

    Heights are ground to deck underside over each axle (wheel radius R + height H of the deck over the axle),
    all lengths in one unit: tilt = atan((rear − front) / wheelbase). Source: plane geometry.
    """
    return degrees(atan((rear_deck_height - front_deck_height) / wheelbase))


def front_axis_angle_deg(
    plate_angle_deg: float, wedge_change_deg: float, end_slope_deg: float, nose_down_tilt_deg: float
) -> float:
    """Working angle of the front steering axis, degrees: λ = plate + wedge + slope − tilt.

    ``wedge_change_deg`` is signed (see :func:`wedge_axis_change_deg`), ``end_slope_deg`` is the end slope of
    the sagging deck, which lifts both ends' axes alike, ``nose_down_tilt_deg`` is positive nose-down and
    takes its angle off the front axis. Source: plane geometry.
    """
    return plate_angle_deg + wedge_change_deg + end_slope_deg - nose_down_tilt_deg


def rear_axis_angle_deg(
    plate_angle_deg: float, wedge_change_deg: float, end_slope_deg: float, nose_down_tilt_deg: float
) -> float:
    """Working angle of the rear steering axis, degrees: λ = plate + wedge + slope + tilt.

    As :func:`front_axis_angle_deg`, but nose-down adds its angle to the rear axis: the rear then steers more,
    which is what makes a board weave at speed. Source: plane geometry.
    """
    return plate_angle_deg + wedge_change_deg + end_slope_deg + nose_down_tilt_deg
