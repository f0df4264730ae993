"""Where a motor stands on the hanger: distance from the axle, working angle, how far out its can reaches (J31 to J34).

Lengths in mm, angles in degrees. α is the angle of the line from axle to motor axis above the horizontal, as the
motor is seen from the side on which it sits: inboard motors stand toward the middle of the board, outboard ones
toward its end.
"""

from fitdb.formulas.belt_choice import centre_distance_or_shortfall
from fitdb.formulas.clearances import motor_to_box


def centre_distance_in_slot(centre_min: float, centre_max: float, slot_share: float) -> float:
    """Axle to motor axis for a motor somewhere in its slot: C = C_min + share·(C_max − C_min).

    ``slot_share`` in percent of the travel, 0 at the end nearest to the axle. Source: geometry.
    """
    return centre_min + slot_share / 100.0 * (centre_max - centre_min)


def centre_distance_on_belt(
    belt_length: float, pitch: float, drive_teeth: float, driven_teeth: float, centre_min: float, centre_max: float
) -> float:
    """Axle to motor axis that a taut open belt without an idler gives, as far as the slot lets the motor go.

    A belt that is too short, or does not go round at all, leaves the motor at the near end of its slot, one that is too
    long at the far end: so the figure grows with the belt and never leaves the slot.
    Source: geometry, see ``belt_choice.centre_distance_or_shortfall``.
    """
    centre = centre_distance_or_shortfall(drive_teeth, driven_teeth, pitch, belt_length)
    return min(max(centre, centre_min), max(centre_min, centre_max))


def working_mount_angle(mount_angle: float, wedge_change: float, inboard: bool) -> float:
    """Angle α of the motor once a wedge stands under the truck.

    ``wedge_change`` is what the wedge adds to the steering axis: positive with its thick end toward the middle of the
    board. The whole hanger turns with the plate, so that an inboard motor is lowered by what the axis gains, and an
    outboard one raised. Source: plane geometry.
    """
    return mount_angle - wedge_change if inboard else mount_angle + wedge_change


def outermost_point_of_can(hanger_width: float, outer_face_inset: float, plate_thickness: float) -> float:
    """How far from the board's middle the can begins, which is its outermost point: y_m = W/2 − inset − plate.

    ``outer_face_inset`` from the hanger's shoulder to the outer face of the mount's plate; the motor is screwed to the
    inner face. Source: geometry.
    """
    return 0.5 * hanger_width - outer_face_inset - plate_thickness


def motor_to_box_on_its_side(
    box_distance: float,
    centre_distance: float,
    mount_angle: float,
    can_radius: float,
    outermost_point: float,
    steer: float,
    inboard: bool,
) -> float:
    """Motor can to the near edge of the box at full steer: x_box − (± C·cos α + r_can) − y_m·sin δ.

    + for an inboard motor, which stands between axle and box; − for an outboard one, beyond the axle.
    ``box_distance`` x_box from axle to box along the board, ``steer`` δ without sign. The reach of the hanger's yaw is
    added in full, which errs short of the true gap. Source: geometry.
    """
    if inboard:
        return motor_to_box(box_distance, centre_distance, mount_angle, can_radius, outermost_point, steer)
    return motor_to_box(box_distance, centre_distance, 180.0 - mount_angle, can_radius, outermost_point, steer)
