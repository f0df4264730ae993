"""Sizes of a board for its drawings, worked out from its readings with the survey lines, at their middles.

The ranges are made up: a share of the size either way. A size whose readings are not all there is left out.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from math import pi, radians, sin
from typing import Any

from fitdb.formulas.box_fixing import between_box_and_deck
from fitdb.model.finding import Range
from fitdb.model.joint import Piece
from fitdb.model.reading import Count, Designation, Number, Word
from fitdb.rules.survey import (
    deck_mid_height,
    deck_static_sag,
    motor_mount_centre_distance,
    motor_mount_working_angle,
    truck_box_distance,
    truck_deck_height,
    wheel_effective_radius,
    wheel_inner_face,
    wheel_outer_face,
)

SPREAD = 0.03
DEFAULTS: dict[str, Any] = {
    "used": "no", "wear": 2.0, "sink": 0.0, "camber": 0.0, "platform_drop": 0.0, "slot_share": 50.0,
    "flange_height": 3.0, "compression": 40.0, "extra_gasket": 0.0, "mass": 80.0,
}  # fmt: skip


class Unread(Exception):
    """A size lacks a reading."""


def worked_out(seated: Mapping[str, Piece]) -> dict[str, Range]:
    """Every size that drawings know by name, as far as the readings go."""
    found: dict[str, Range] = {}

    def read(seat: str, attribute: str, port: str = "") -> Any:
        piece = seated.get(seat)
        got = piece.part.offers(attribute, port)[1] if piece else None
        if isinstance(got, Number | Designation | Count):
            return got.nominal
        if isinstance(got, Word) and len(got.possible) == 1:
            return next(iter(got.possible))
        if piece and attribute in DEFAULTS:
            return DEFAULTS[attribute]
        raise Unread(f"{seat}.{attribute}")

    def each(seats: list[str], attribute: str, port: str = "") -> tuple[Any, ...]:
        """Of the seats that are filled with what has such a reading."""
        got = []
        for seat in seats:
            if seat in seated and (
                seated[seat].part.offers(attribute, port)[1] is not None or attribute in ("extra_gasket", "compression")
            ):
                got.append(read(seat, attribute, port))
        return tuple(got)

    def put(name: str, size: Callable[[], float]) -> None:
        try:
            middle = size()
        except Unread:
            return
        found[name] = Range(middle - abs(middle) * SPREAD, middle, middle + abs(middle) * SPREAD, "mm")

    for end in ("front", "rear"):
        risers = [f"{end}_{one}" for one in ("riser", "riser_2", "wedge", "grid_adapter")]
        wheels = [f"{end}_{side}_{one}" for side in ("left", "right") for one in ("wheel", "hub_sleeve")]
        wheel = next((seat for seat in wheels if seat in seated), "")
        put(
            f"{end}.wheel_radius",
            lambda wheel=wheel: wheel_effective_radius.quantity(
                *(read(wheel, one) for one in ("outer_diameter", "used", "wear", "sink"))
            ),
        )
        put(
            f"{end}.deck_height",
            lambda end=end, risers=risers: truck_deck_height.quantity(
                read("deck", "mount_style"),
                read(f"{end}_truck", "axle_to_deck_face"),
                read(f"{end}_truck", "plate_thickness"),
                read("deck", "thickness"),
                each(risers, "thickness"),
                each(["deck"], "plate_pocket_depth"),
            ),
        )
        put(
            f"{end}.box_distance",
            lambda end=end: (
                min(
                    truck_box_distance.quantity(
                        1.0 if end == "rear" else -1.0,
                        read("deck", "wheelbase"),
                        read(box, "position_from_middle"),
                        read(box, "length"),
                    )
                    for box in ("box", "second_box")
                    if box in seated
                )
                if "box" in seated
                else read("box", "length")
            ),
        )
    put("wheelbase", lambda: read("deck", "wheelbase"))
    put("deck.sag", lambda: deck_static_sag.LINE.quantity(read("rider", "mass"), read("deck", "stiffness"), 0.69))

    def size(name: str) -> float:
        if name not in found:
            raise Unread(name)
        return found[name].nominal

    put(
        "deck.mid_height",
        lambda: deck_mid_height.quantity(
            size("rear.wheel_radius"),
            size("rear.deck_height"),
            read("deck", "camber"),
            read("deck", "mount_style"),
            read("deck", "platform_drop"),
            size("deck.sag"),
        ),
    )
    for box in ("box", "second_box", "pocket"):
        frames = [f"{box}_spacer_frame", f"{box}_spacer_frame_2"]
        put(
            f"{box}.ground_gap",
            lambda box=box, frames=frames: (
                size("deck.mid_height")
                - read(box, "depth")
                - between_box_and_deck(
                    each([f"{box}_gasket"], "thickness"),
                    each([f"{box}_gasket"], "compression"),
                    each(frames, "thickness"),
                    each(frames, "extra_gasket"),
                )
                - sum(each([f"{box}_skid_plate"], "thickness"))
            ),
        )
    for place in ("front_left", "front_right", "rear_left", "rear_right"):
        end = place.split("_")[0]
        mount = f"{place}_motor_mount" if f"{place}_motor_mount" in seated else f"{place}_gear_drive"
        driven, drive, motor = f"{place}_driven_pulley", f"{place}_drive_pulley", f"{place}_motor"
        if mount.endswith("gear_drive"):
            put(f"{motor}.centre_distance", lambda mount=mount: read(mount, "centre_distance"))
        else:
            put(
                f"{motor}.centre_distance",
                lambda place=place, mount=mount, driven=driven, drive=drive: motor_mount_centre_distance.quantity(
                    read(mount, "centre_min"),
                    read(mount, "centre_max"),
                    read(mount, "slot_share"),
                    each([f"{place}_belt"], "length"),
                    (),
                    each([drive], "tooth_pitch", "teeth"),
                    each([drive], "teeth", "teeth"),
                    each([driven], "teeth", "teeth"),
                ),
            )
        put(
            f"{motor}.angle_deg",
            lambda end=end, mount=mount: motor_mount_working_angle.quantity(
                read(mount, "mount_angle"),
                read(mount, "motor_place"),
                each([f"{end}_wedge"], "angle"),
                each([f"{end}_wedge"], "thick_end"),
            ),
        )
        put(
            f"{motor}.ground_gap",
            lambda place=place, end=end, motor=motor: (
                size(f"{end}.wheel_radius")
                + size(f"{motor}.centre_distance") * sin(radians(size(f"{motor}.angle_deg")))
                - read(motor, "can_diameter") / 2
                - sum(each([f"{place}_bash_guard"], "thickness"))
            ),
        )
        put(
            f"{driven}.ground_gap",
            lambda end=end, driven=driven: (
                size(f"{end}.wheel_radius")
                - read(driven, "teeth", "teeth") * read(driven, "tooth_pitch", "teeth") / (2 * pi)
                - read(driven, "flange_height")
            ),
        )
        hanger = f"{end}_hanger" if f"{end}_hanger" in seated else f"{end}_truck"
        for name, line in (("inner_face", wheel_inner_face), ("outer_face", wheel_outer_face)):
            sleeve = f"{place}_hub_sleeve"
            if sleeve in seated:  # the sleeve sits on the can, which begins at the hanger's shoulder
                put(
                    f"{place}.{name}",
                    lambda name=name, hanger=hanger, sleeve=sleeve: (
                        read(hanger, "hanger_width") / 2 + 6 + (read(sleeve, "length") if name == "outer_face" else 0.0)
                    ),
                )
                continue
            put(
                f"{place}.{name}",
                lambda place=place, line=line, hanger=hanger: line.quantity(
                    read(hanger, "hanger_width"),
                    each([f"{place}_inner_spacer", f"{place}_second_inner_spacer"], "length"),
                    each([f"{place}_speed_ring", f"{place}_outer_speed_ring"], "thickness"),
                    each([f"{place}_lug_plate"], "axial_thickness"),
                    (),
                    each([f"{place}_pulley_carrier"], "length"),
                    each([f"{place}_bearing"], "width"),
                    read(f"{place}_wheel", "seat_depth", "seat"),
                    read(f"{place}_wheel", "seat_gap"),
                    read(f"{place}_wheel", "core_offset"),
                    read(f"{place}_wheel", "width"),
                ),
            )
    return found
