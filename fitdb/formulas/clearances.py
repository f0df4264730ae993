"""Gaps between wheels, pulleys, motors, boxes, deck and ground: mm, degrees; negative means overlap.

Common symbols: R wheel radius, R_eff the radius left after wear and sink, H axle centre to deck underside, C
distance from axle to motor axis, α the angle of that line above the horizontal, r_can radius of the motor
can, φ lean, δ steer, y distance across the board from its long axis, x distance along the board from the
axle.
"""

from math import cos, radians, sin


def effective_wheel_radius(radius: float, wear: float, sink: float) -> float:
    """Radius at which a wheel carries the axle over the ground: R_eff = R − wear − sink.

    ``wear`` is radius lost since new (2 mm assumed on a used solid wheel), ``sink`` how far a tyre is pressed
    in by the load (3 to 8 mm). Source: geometry; the two values: common practice, no source.
    """
    return radius - wear - sink


def pulley_to_ground(effective_radius: float, pitch_diameter: float, height_over_pitch_line: float) -> float:
    """Driven pulley to ground (J18): R_eff − (d_p/2 + f).

    ``pitch_diameter`` d_p = teeth·pitch/π, ``height_over_pitch_line`` f of whatever stands out furthest:
    about 3.0 with flanges, 1.13 for the back of a 5 mm belt without flanges, 0.8 for a 3 mm belt (common
    practice, no source).
    """
    return effective_radius - (pitch_diameter / 2.0 + height_over_pitch_line)


def wheel_to_motor_can(centre_distance: float, can_radius: float, wheel_radius: float) -> float:
    """Tread of a wheel to a motor can beside it (J09), radially: (C − r_can) − R. Source: geometry."""
    return centre_distance - can_radius - wheel_radius


def motor_to_motor(
    hanger_width: float,
    mount_inset: float,
    plate_thickness: float,
    first_can_length: float,
    second_can_length: float,
    stubs: float,
) -> float:
    """Gap between two motors facing each other on one hanger (J31): W − 2·(inset + plate) − L1 − L2 − stubs.

    ``hanger_width`` W shoulder to shoulder, ``mount_inset`` shoulder to the plate's outer face, ``stubs`` all
    shaft stubs and bosses past the cans together (data sheets leave out 3 to 8 mm of each). Source: geometry.
    """
    return hanger_width - 2.0 * (mount_inset + plate_thickness) - first_can_length - second_can_length - stubs


def motor_to_deck_under_lean(
    height: float,
    centre_distance: float,
    mount_angle_deg: float,
    can_radius: float,
    y_motor: float,
    lean_deg: float,
    end_slope_deg: float,
    distance_along_deck: float,
) -> float:
    """Motor can to deck underside at full lean (J32): H − (C·sin α + r_can) − y_m·sin φ − (3δ/L)·x.

    ``y_motor`` y_m the can's outermost point across the board on the low side; ``end_slope_deg`` slope of the
    sagging deck at the trucks, 3δ/L in degrees; ``distance_along_deck`` x from the axle toward the board's
    middle at which the can lies (0 for a motor outside the axles). Source: geometry; the lean convention is
    common practice, no source.
    """
    lift = centre_distance * sin(radians(mount_angle_deg)) + can_radius
    sag = radians(end_slope_deg) * distance_along_deck
    return height - lift - y_motor * sin(radians(lean_deg)) - sag


def motor_to_ground(
    effective_radius: float, centre_distance: float, mount_angle_deg: float, can_radius: float
) -> float:
    """Motor can to ground (J33): R_eff + C·sin α − r_can.

    ``mount_angle_deg`` α is the working angle: a wedge under the truck turns it by the angle of the wedge. A
    bash plate takes its thickness off. Source: geometry.
    """
    return effective_radius + centre_distance * sin(radians(mount_angle_deg)) - can_radius


def motor_to_box(
    box_distance: float,
    centre_distance: float,
    mount_angle_deg: float,
    can_radius: float,
    y_motor: float,
    steer_deg: float,
) -> float:
    """Motor can to the near edge of the box at full steer (J34): x_box − (C·cos α + r_can) − y_m·sin δ.

    ``box_distance`` x_box from axle to box along the board, ``y_motor`` y_m the can's outermost point across
    the board, which swings toward the box as the hanger yaws; ``steer_deg`` δ without sign. Source: geometry;
    it adds the swing to the unsteered reach and so errs short of the true gap.
    """
    reach = centre_distance * cos(radians(mount_angle_deg)) + can_radius
    return box_distance - reach - y_motor * sin(radians(steer_deg))


def wheel_sweep_to_box(box_distance: float, radius: float, y_out: float, steer_deg: float) -> float:
    """Steered wheel to the near edge of the box (J43): x_box − (R + y_out·sin δ).

    Errs short of the true gap, in which R counts with cos δ. ``steer_deg`` δ without sign. Source: geometry.
    """
    return box_distance - (radius + y_out * sin(radians(steer_deg)))


def mid_height(height: float, camber: float, platform_drop: float) -> float:
    """Deck underside over the axles' plane at mid-span (J42): H_mid = H + camber − dropped platform.

    ``camber`` positive when the middle stands higher than the ends. Source: geometry.
    """
    return height + camber - platform_drop


def box_to_ground_at_rest(
    radius: float, height_at_mid: float, box_depth: float, static_sag: float, *, height_holds_sag: bool
) -> float:
    """Box to ground with the rider standing still (J42): R + H_mid − depth − δ.

    ``height_at_mid`` H_mid. If it was built up from part sizes the static sag δ is still to come off; if it
    was read on the board with the rider standing (``height_holds_sag``), nothing more comes off. Source:
    geometry.
    """
    return radius + height_at_mid - box_depth - (0.0 if height_holds_sag else static_sag)


def box_to_ground_on_bump(
    radius: float,
    height_at_mid: float,
    box_depth: float,
    static_sag: float,
    *,
    height_holds_sag: bool,
    sag_factor: float = 2.0,
) -> float:
    """Box to ground at the bottom of a bump (J42): R + H_mid − depth − n·δ.

    (n − 1)·δ comes off instead if the height already holds one sag. ``sag_factor`` n is the sag on a bump
    over the static sag: 2 (a load let go without a drop: Gere, Mechanics of Materials, deflections produced
    by impact), 2.5 on rough ground (common practice, no source).
    """
    further = sag_factor - 1.0 if height_holds_sag else sag_factor
    return radius + height_at_mid - box_depth - further * static_sag


def track_overhang(y_out: float, platform_half_width: float) -> float:
    """How far the wheel's outer face stands outside the standing platform (J06): y_out − half width.

    Comfort −15 to +25 mm: less tips easily, more is trodden on (common practice, no source).
    """
    return y_out - platform_half_width
