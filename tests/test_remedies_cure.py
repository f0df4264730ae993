"""Remedy by remedy: a board of a few parts on which the joint fails, the remedy that cures it, what it breaks in turn,
and the whole answer that these remedies alone lead to.

What cures what, and at what price, is common practice, no source; sizes are those of the shipped parts.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

import pytest

from fitdb.board import BoardJudge, Judged
from fitdb.catalogue.read import Book
from fitdb.model.joint import Piece
from fitdb.model.part import Part
from fitdb.model.plan import SwapPlan
from fitdb.model.reading import Count, Number, Reading, Word
from fitdb.model.source import Source
from fitdb.moves import with_reading
from fitdb.rules import rulebook
from fitdb.steps.mend import Failing, mend
from fitdb.workshop import BoardWorkshop

CHOSEN = Source("chosen", "standard", "a size made up for this board", "")
ByClass = Mapping[str, list[Part]]


def made(name: str, **sizes: float | str) -> tuple[str, dict[str, float | str]]:
    """A shipped part with some of its sizes made others, without spread."""
    return name, sizes


@dataclass(frozen=True)
class Case:
    """A remedy and the rule that it is for.

    board: parts by seat. breaks: rules that newly fail once it is done, at one of its sizes at least. then: what the
    best answer takes with it, where none are known but these and those `beside`. mended: whether that answer exists.
    """

    remedy: str
    rule: str
    board: dict[str, Any]
    breaks: tuple[str, ...] = ()
    then: tuple[str, ...] = ()
    beside: tuple[str, ...] = ()
    mended: bool = True
    pattern: str = "two_wheel_belt"


PLY = "deck-stiff-ply-950"
DRIVE_15 = "drive-pulley-5mm-15-bore-8-key-3-face-16-5"
MOUNT = "motor-mount-round-31-44"
HEX_TRUCK = "truck-190-hexagon-30"
BELT_AND_MOTOR = {
    "rear_left_drive_pulley": DRIVE_15,
    "rear_left_driven_pulley": "driven-36-six-lug",
    "rear_left_motor": "motor-63x62-190",
}
CASES: tuple[Case, ...] = (
    # --- deck, trucks, steering
    Case(
        "flat_riser",
        "wheel_bite.wood_clears_the_wheel",
        {
            "deck": PLY,
            "rear_truck": "truck-180-44",
            "rear_left_wheel": "wheel-107-six-window",
            "rear_deck_bolt": "deck-bolt-m5-30",
            "deck_nut": "deck-nut-m5",
        },
        breaks=("deck_bolts.nut_is_fully_on",),
        then=("other_deck_bolts",),
    ),
    Case(
        "other_wheels",
        "wheel_bite.wood_clears_the_wheel",
        {"deck": PLY, "rear_truck": "truck-180-44", "rear_left_wheel": "wheel-107-six-window"},
    ),
    Case(
        "less_lean",
        "wheel_bite.wood_clears_the_wheel",
        {"deck": PLY, "rear_truck": made("truck-180-44", max_lean=16.0), "rear_left_wheel": "wheel-90-six-window"},
    ),
    Case(
        "wedge_riser",
        "axis_angles.rear_steers_no_more",
        {
            "deck": PLY,
            "front_truck": "truck-180-44",
            "rear_truck": "truck-180-50",
            "deck_nut": "deck-nut-m5",
            "rear_deck_bolt": "deck-bolt-m5-35",
        },
        breaks=("deck_bolts.thick_end_nut_is_fully_on",),
        then=("thick_end_bolts",),
    ),
    Case(
        "wedge_riser",
        "axis_angles_at_speed.rear_steers_no_more_at_speed",
        {
            "deck": PLY,
            "front_truck": made("truck-180-44", axis_angle=44.0),
            "rear_truck": made("truck-180-44", axis_angle=45.5),
            "wish": made("wish-town", riding_speed=40.0),
            **BELT_AND_MOTOR,
        },
    ),
    Case(
        "wedge_riser",
        "axis_angles_at_speed.front_axis_is_flat_at_speed",
        {
            "deck": made(PLY, end_slope=2.0),
            "front_truck": made("truck-180-50", axis_angle=51.0),
            "rear_truck": made("truck-180-44", axis_angle=38.0),
            "wish": made("wish-town", riding_speed=40.0),
            **BELT_AND_MOTOR,
        },
    ),
    Case(
        "other_deck_nuts",
        "deck_bolts.nut_holds_itself",
        {"deck": PLY, "rear_truck": "truck-180-44", "rear_deck_bolt": "deck-bolt-m5-35", "deck_nut": "hex-nut-m5"},
    ),
    Case(
        "other_thick_end_bolts",
        "deck_bolts.thick_end_nut_matches_the_thread",
        {
            "deck": PLY,
            "rear_truck": "truck-180-44",
            "rear_wedge": "wedge-8",
            "rear_deck_bolt": "deck-bolt-m5-40",
            "rear_thick_end_bolt": "deck-bolt-10-32-44",
            "deck_nut": "deck-nut-m5",
        },
    ),
    Case(
        "grid_adapter_plate",
        "deck_holes.grid_lengths_agree",
        {"deck": PLY, "rear_truck": "truck-150-50", "rear_deck_bolt": "deck-bolt-m5-30", "deck_nut": "deck-nut-m5"},
    ),
    Case(
        "other_bushings",
        "bushings.hardness_suits_the_rider",
        {"rear_truck": "truck-180-50", "rear_bushing": "bushings-85-barrel-cone", "rider": "rider-100"},
    ),
    # --- axle and wheel
    Case(
        "other_bearings",
        "bearing_on_axle.bearing_slides_on",
        {"rear_truck": HEX_TRUCK, "rear_left_wheel": "wheel-90-six-window", "rear_left_bearing": "bearing-608"},
    ),
    Case(
        "axle_sleeve",
        "bearing_on_axle.bearing_does_not_rattle",
        {"rear_truck": "truck-180-50", "rear_left_bearing": "bearing-6900"},
    ),
    Case(
        "other_inner_spacer",
        "ring_on_axle.ring_slides_on",
        {"rear_truck": HEX_TRUCK, "rear_left_inner_spacer": "inner-spacer-8-20"},
    ),
    Case(
        "other_bearing_spacer",
        "ring_on_axle.ring_slides_on",
        {"rear_truck": HEX_TRUCK, "rear_left_spacer": "bearing-spacer-10-1"},
    ),
    Case(
        "other_speed_ring",
        "ring_on_axle.ring_slides_on",
        {"rear_truck": HEX_TRUCK, "rear_left_speed_ring": "speed-ring-8-1-0"},
    ),
    Case(
        "axle_sleeve",
        "bearing_on_axle.bearing_does_not_rattle",
        {
            "rear_truck": "truck-180-50",
            "rear_left_bearing": "bearing-6900",
            "rear_left_spacer": made("bearing-spacer-10-1", length=10.1),
            "rear_left_wheel": made("wheel-90-six-window", seat_gap=10.0),
        },
        breaks=("ring_on_axle.ring_slides_on",),
        then=("other_bearing_spacer",),
    ),
    Case(
        "bearing_shim",
        "bearing_spacer.spacer_takes_the_load",
        {
            "rear_left_wheel": made("wheel-90-six-window", seat_gap=10.3),
            "rear_left_spacer": made("bearing-spacer-10-1", length=10.2),
        },
    ),
    Case(
        "other_speed_ring",
        "axle_stack.axle_takes_the_nut",
        {
            "rear_truck": made("truck-150-50", axle_length=34.0),
            "rear_left_axle_nut": made("axle-nut-m8", height=8.0),
            "rear_left_wheel": made("wheel-90-six-window", seat_gap=10.0, seat_depth=7.0),
            "rear_left_speed_ring": made("speed-ring-8-1-0", thickness=1.2),
        },
    ),
    Case(
        "other_axle_nut",
        "axle_nut.threads_are_the_same",
        {"rear_truck": "truck-180-50", "rear_left_axle_nut": "axle-nut-5-16"},
    ),
    Case(
        "lug_plate",
        "core_windows.lugs_index",
        {
            "rear_truck": "truck-180-50",
            "rear_left_wheel": "wheel-90-five-window",
            "rear_left_bearing": "bearing-608",
            "rear_left_driven_pulley": "driven-36-six-lug",
            "rear_left_inner_spacer": "inner-spacer-8-20",
            "rear_left_axle_nut": "axle-nut-m8",
        },
        breaks=("axle_nut.nylon_ring_is_fully_on", "axle_stack.axle_takes_the_nut"),
        then=("other_inner_spacer",),
    ),
    Case(
        "filed_lugs",
        "core_windows.lugs_enter",
        {"rear_left_wheel": "wheel-90-six-window", "rear_left_driven_pulley": made("driven-36-six-lug", lug_width=9.3)},
    ),
    Case(
        "centring_ring",
        "centring.collar_is_snug",
        {
            "rear_left_wheel": "wheel-90-six-window",
            "rear_left_driven_pulley": made("driven-36-six-lug", spigot_diameter=26.0),
        },
    ),
    Case(
        "driven_pulley_bored_out",
        "pulley_over_hanger.hanger_end_passes_inside",
        {"rear_truck": HEX_TRUCK, "rear_left_driven_pulley": "driven-pulley-5mm-28-alloy-face-16-5"},
    ),
    Case(
        "driven_flanges_turned_off",
        "pulley_ground.stones_pass_under_the_pulley",
        {
            "rear_left_wheel": made("wheel-83-six-window", outer_diameter=85.0, used="no"),
            "rear_left_driven_pulley": "driven-40-six-lug",
            "rear_left_drive_pulley": "drive-pulley-5mm-18-plain-bore",
            "rear_left_belt": "belt-5mm-280-15",
        },
        breaks=("belt_width.flanges_hold_the_belt",),
        then=("other_drive_pulley",),
    ),
    Case(
        "other_driven_pulley",
        "pulley_ground.stones_pass_under_the_pulley",
        {
            "rear_left_wheel": "wheel-90-six-window",
            "rear_left_driven_pulley": "driven-pulley-5mm-48-alloy-face-16-5",
            "rear_left_motor_mount": MOUNT,
            "rear_left_drive_pulley": DRIVE_15,
            "rear_left_belt": "belt-5mm-310-15",
        },
        breaks=("belt_length.belt_can_be_tensioned",),
        then=("other_belt",),
    ),
    # --- belt and motor
    Case(
        "other_belt",
        "belt_length.belt_can_be_tensioned",
        {
            "rear_left_belt": "belt-5mm-300-15",
            "rear_left_drive_pulley": DRIVE_15,
            "rear_left_driven_pulley": "driven-36-six-lug",
            "rear_left_motor_mount": MOUNT,
        },
    ),
    Case(
        "idler",
        "belt_pull.enough_teeth_mesh",
        {
            "rear_left_belt": "belt-5mm-340-15",
            "rear_left_driven_pulley": "driven-60-three-wing",
            "rear_left_drive_pulley": "drive-pulley-5mm-12-bore-8-set-screw-face-16-5",
        },
    ),
    Case(
        "belts_brought_in_line",
        "belt_line.planes_are_in_line",
        {
            "rear_left_belt": made("belt-5mm-280-15", line_offset=1.5),
            "rear_left_drive_pulley": DRIVE_15,
            "rear_left_driven_pulley": "driven-36-six-lug",
        },
    ),
    Case(
        "reducing_bush",
        "pulley_bore.bore_is_snug",
        {
            "rear_left_drive_pulley": "drive-pulley-5mm-14-bore-10-key-3-face-16-5",
            "rear_left_motor": "motor-63x62-190",
            "controller": made("controller-double-75v-60", motor_current=70.0, phase_continuous_current=80.0),
        },
        breaks=("torque_lock.bush_holds",),
        then=("motor_current_setting",),
    ),
    Case(
        "bored_out_drive_pulley",
        "pulley_bore.bore_takes_shaft",
        {"rear_left_drive_pulley": DRIVE_15, "rear_left_motor": "motor-63x74-150"},
    ),
    Case(
        "other_key",
        "torque_lock.key_fits_shaft",
        {"rear_left_drive_pulley": DRIVE_15, "rear_left_motor": "motor-63x62-190", "rear_left_key": "key-2x2x12"},
    ),
    Case(
        "motor_face_plate",
        "motor_face.circles_agree",
        {
            "rear_left_motor": made("motor-63x74-130-thirty", shaft_length=24.0),
            "rear_left_motor_mount": MOUNT,
            "rear_left_drive_pulley": DRIVE_15,
        },
        breaks=("shaft_length.shaft_fills_hub", "shaft_length.shaft_reaches_through_plate"),
        mended=False,
    ),
    Case(
        "other_motor_screws",
        "motor_screws.screw_stops_short",
        {
            "rear_left_motor": "motor-63x62-190",
            "rear_left_motor_mount": MOUNT,
            "rear_left_motor_screw": "motor-screw-m4x16",
        },
    ),
    Case(
        "other_face_plate_screws",
        "motor_screws.screw_stops_short",
        {
            "rear_left_motor": "motor-63x62-190",
            "rear_left_face_plate": "face-plate-44-to-30",
            "rear_left_face_plate_screw": "motor-screw-m4x16",
        },
    ),
    # --- mount and motor place
    Case(
        "clamp_shim",
        "clamp_profile.clamp_grips_its_whole_width",
        {
            "rear_hanger": "hanger-184-round-30-machined",
            "rear_left_motor_mount": made("motor-mount-round-30-44", clamp_bore=30.9),
        },
    ),
    Case(
        "mount_shell",
        "clamp_profile.form_is_the_same",
        {
            "rear_hanger": made("hanger-190-hexagon-30", clear_length=25.0),
            "rear_left_motor_mount": made("motor-mount-round-42-44", outer_face_inset=3.0),
        },
        breaks=("clamp_place.shell_leaves_the_pulley_its_room",),
        mended=False,
    ),
    Case(
        "turned_mount",
        "motor_to_ground.motor_clears_the_ground",
        {
            "deck": PLY,
            "rear_truck": "truck-180-44-round-31-cast",
            "rear_left_wheel": "wheel-83-six-window",
            "rear_left_inner_spacer": "inner-spacer-8-22",
            "rear_left_bearing": "bearing-608",
            "rear_left_motor": "motor-63x62-190",
            "rear_left_motor_mount": made(MOUNT, mount_angle=-20.0),
        },
    ),
    Case(
        "motor_outboard",
        "motor_to_box.motor_clears_the_box_at_full_steer",
        {
            "deck": PLY,
            "rear_truck": "truck-180-44-round-31-cast",
            "rear_left_motor": "motor-63x62-190",
            "rear_left_motor_mount": MOUNT,
            "box": made("box-middle-hard", position_from_middle=100.0),
        },
    ),
    Case(
        "other_hub_sleeve",
        "hub_motor.ribs_agree",
        {"rear_left_hub_motor": "hub-motor-80-12", "rear_left_hub_sleeve": "hub-sleeve-80-10"},
        pattern="hub_motors",
    ),
    Case(
        "trimmed_belt_cover",
        "belt_cover.cover_clears_the_wheel",
        {
            "rear_left_belt_cover": "belt-cover-24-alloy",
            "rear_left_wheel": "wheel-90-six-window",
            "rear_hanger": "hanger-180-round-31-cast",
            "rear_left_motor_mount": MOUNT,
            "rear_left_inner_spacer": "inner-spacer-8-20",
        },
    ),
    # --- box
    Case(
        "slotted_box_holes",
        "box_holes.screw_enters_the_hole",
        {
            "deck": "deck-carbon-insert-300-m5",
            "box": "box-middle-hard",
            "box_screw": made("box-screw-m5x16", length=13.0),
        },
    ),
    Case(
        "floating_fixings",
        "box_flex.rim_follows_on_a_bump",
        {"deck": "deck-medium-bamboo-960", "box": "box-middle-hard", "rider": "rider-60"},
    ),
    Case(
        "other_gasket",
        "box_seal.gasket_is_pressed_enough",
        {
            "deck": "deck-stiff-ply-insert-300",
            "box": made("box-middle-hard", rim_gap=3.0),
            "box_gasket": "gasket-foam-3",
            "box_screw": made("box-screw-m4x12", length=10.0),
        },
        breaks=("insert_screws.screw_grips_the_insert",),
        then=("other_box_screws",),
    ),
    Case(
        "other_box_screws",
        "insert_screws.screw_grips_the_insert",
        {
            "deck": "deck-stiff-ply-insert-300",
            "box": "box-middle-hard",
            "box_screw": "box-screw-m4x10",
            "box_gasket": "gasket-foam-3",
            "box_spacer_frame": "frame-5",
        },
    ),
    Case(
        "box_spacer_frame",
        "insert_screws.screw_ends_in_the_insert",
        {
            "deck": "deck-stiff-ply-insert-300",
            "box": made("box-middle-hard", depth=74.0, fixing="floating"),
            "box_screw": "box-screw-m4x16",
            "rear_truck": "truck-180-44",
            "rear_left_wheel": "wheel-80-six-window",
            "rider": "rider-60",
        },
        breaks=("box_ground.box_clears_at_rest",),
        mended=False,
    ),
    Case(
        "box_spacer_frame",
        "box_contents.body_goes_in_upwards",
        {
            "box": made("box-middle-hard", cavity_height=28.0),
            "controller": made("controller-double-75v-60", body_height=26.0, motor_current=25.0),
        },
    ),
    Case(
        "wider_exit",
        "lead_slot.plug_passes_the_opening",
        {"box": made("box-middle-hard", opening_width=8.0), "lead": "lead-12awg-block-60"},
    ),
    Case(
        "wider_bend",
        "lead_bend.lead_is_not_bent_tightly",
        {"box": made("box-middle-hard", bend_radius=18.0), "lead": "lead-10awg-bare"},
    ),
    Case(
        "extension_of_the_phase_leads",
        "lead_length.spare_covers_steer_and_flex",
        {
            "rear_left_phase_lead": made("phase-10awg-bullet-5-5", length=270.0),
            "rear_truck": "truck-180-44",
            "deck": PLY,
            "rider": "rider-80",
        },
    ),
    Case(
        "heat_plate_and_pad",
        "controller_heat.current_suits_the_box",
        {
            "box": made("box-middle-hard", cavity_height=28.0),
            "controller": made("controller-double-75v-60", body_height=24.0),
        },
        breaks=("box_contents.body_goes_in_upwards", "box_contents.contents_go_in_together"),
        mended=False,
    ),
    # --- power
    Case(
        "pack_current_setting",
        "current_chain.cells_give_the_current",
        {"pack": "pack-12s2p-21700-energy", "controller": "controller-double-75v-60"},
    ),
    Case(
        "other_fuse",
        "fuse_current.above_the_asked_current",
        {
            "pack": "pack-12s3p-21700-power",
            "controller": made("controller-double-75v-60", pack_current=20.0),
            "fuse": "fuse-bolt-40-80v-near",
            "main_lead": made("main-lead-10awg-open", area=4.5),
        },
        breaks=("fuse_lead.blows_before_the_lead_burns",),
        then=("other_main_lead",),
    ),
    Case(
        "other_main_lead",
        "power_lead.carries_the_current",
        {
            "pack": "pack-12s3p-21700-power",
            "main_lead": "main-lead-14awg-open",
            "second_box": "box-middle-hard",
            "controller": made("controller-double-75v-60", pack_current=20.0, phase_continuous_current=120.0),
        },
        breaks=("lead_slot.plug_passes_the_opening",),
        then=("wider_exit_of_the_second_box",),
        pattern="two_wheel_belt_two_boxes",
    ),
    Case(
        "other_main_lead",
        "fuse_lead.blows_before_the_lead_burns",
        {
            "fuse": "fuse-bolt-40-80v-near",
            "fuse_2": "fuse-bolt-40-80v-near",
            "main_lead": made("main-lead-10awg-open", length=300.0),
        },
    ),
    Case(
        "other_rail_plug",
        "fuse_connector.blows_before_the_connector_burns",
        {
            "fuse": "fuse-bolt-40-80v-near",
            "fuse_2": "fuse-bolt-40-80v-near",
            "rail_plug": "connector-60-plug-metered",
        },
    ),
    Case(
        "main_lead_out_of_the_bundle",
        "power_lead.carries_the_current",
        {
            "pack": "pack-12s3p-21700-power",
            "controller": made("controller-double-75v-60", pack_current=25.0),
            "main_lead": "main-lead-10awg-bundled",
        },
    ),
    Case(
        "power_adapter_lead",
        "power_plugs.size_equal",
        {"pack_plug": "connector-60-socket-metered", "rail_plug": "connector-90-plug-metered"},
    ),
    Case(
        "other_main_switch",
        "main_switch.current_leaves_a_fifth",
        {
            "switch": "switch-anti-spark-60v",
            "controller": made("controller-double-75v-60", pack_current=27.0),
            "pack": "pack-12s3p-21700-power",
        },
        beside=("pre_charge_in_the_main_lead",),
    ),
    Case(
        "other_main_switch",
        "main_switch.switch_can_open_the_board",
        {
            "switch": "switch-pre-charge-lead",
            "controller": made("controller-double-75v-60", pack_current=25.0),
            "pack": "pack-12s3p-21700-power",
        },
    ),
    Case(
        "other_charge_port",
        "charge_port.polarity_equal",
        {"charger": "charger-10s-2", "charge_port": "charge-port-barrel-2-1-reversed"},
    ),
    Case(
        "lower_charging_current",
        "charger_pack.cells_take_the_current",
        {"charger": "charger-10s-4", "pack": made("pack-10s2p-18650", cell_charge_current=1.0)},
    ),
    # --- signals
    Case(
        "motor_current_setting",
        "motor_current.motor_bears_the_setting",
        {"rear_left_motor": "motor-63x62-190", "controller": "controller-double-75v-60"},
    ),
    Case(
        "rev_ceiling_setting",
        "electrical_speed.speed_at_full_pack_stays_below_the_limit",
        {
            "rear_left_motor": "motor-63x62-190",
            "controller": made("controller-single-60v-50", rev_ceiling=1000000.0),
            "pack": "pack-12s3p-21700-power",
        },
    ),
    Case(
        "resoldered_bullets",
        "phase_bullets.diameters_agree",
        {
            "rear_left_motor": "motor-63x62-190",
            "rear_right_motor": "motor-63x62-190",
            "controller": made("controller-single-75v-80", motor_current=50.0),
        },
    ),
    Case(
        "metered_sensor_lead",
        "sensor_plug.ways_agree",
        {
            "rear_left_hub_motor": "hub-motor-80-12",
            "controller": made(
                "controller-double-75v-60", motor_current=20.0, temperature_setting="not_used", bullet_diameter=3.5
            ),
        },
        pattern="hub_motors",
    ),
    Case(
        "repinned_sensor_plug",
        "sensor_plug.pins_are_in_the_same_order",
        {
            "rear_left_motor": made("motor-63x62-190", pin_order="ground_a_b_c_temperature_supply"),
            "controller": made("controller-double-75v-60", motor_current=50.0),
        },
    ),
    Case(
        "temperature_sensor_setting",
        "temperature_sensor.kind_is_as_set",
        {
            "rear_left_motor": made("motor-63x62-190", temperature_sensor="ptc_silicon"),
            "controller": made("controller-double-75v-60", motor_current=50.0),
        },
    ),
    Case(
        "signal_converter",
        "receiver_signal.forms_agree",
        {"receiver": "receiver-serial-plain", "controller": "controller-double-75v-60"},
    ),
    Case(
        "receiver_plus_pulled_of_the_second_controller",
        "receiver_supply.one_supply_feeds",
        {
            "receiver": "receiver-servo",
            "controller": "controller-linked-leader",
            "controller_2": made("controller-linked-follower", feeds_receiver="yes"),
        },
    ),
    Case(
        "receiver_regulator",
        "receiver_supply.supply_keeps_a_reserve",
        {"receiver": "receiver-servo", "controller": made("controller-double-75v-60", auxiliary_current=0.08)},
        breaks=("receiver_supply.one_supply_feeds",),
        then=("receiver_plus_pulled",),
    ),
    Case(
        "outside_antenna",
        "radio_shade.antenna_has_open_sides",
        {"receiver": "receiver-serial-plain", "box": "box-middle-alloy", "deck": "deck-carbon-hollow-920"},
    ),
    Case(
        "meter_cells_setting",
        "meter_setting.cells_are_set",
        {"meter": "meter-charge-gauge", "pack": "pack-10s2p-18650"},
    ),
    # --- cells, switch, packs together
    Case(
        "braking_charge_setting",
        "braking_charge.cells_take_the_charge",
        {
            "pack": "pack-12s2p-21700-energy",
            "controller": made("controller-double-60v-set-gently", pack_current=8.0),
            "rear_left_motor": "motor-63x62-190",
            "rear_right_motor": "motor-63x62-190",
            "rider": "rider-80",
            "rear_left_drive_pulley": DRIVE_15,
            "rear_left_driven_pulley": "driven-36-six-lug",
            "rear_left_wheel": "wheel-90-six-window",
            "wish": "wish-town",
        },
        breaks=("ride_brake.brake_meets_the_floor", "ride_brake.charge_limit_brakes_hard_enough"),
        mended=False,
    ),
    Case(
        "soft_cutoff_end_setting",
        "cutoff_stack.fade_ends_before_the_bms_cuts",
        {
            "pack": "pack-10s2p-18650",
            "bms": "bms-10s-30",
            "controller": made(
                "controller-double-60v-50-factory", pack_current=12.0, braking_charge_limit=1.5, soft_cutoff_start=32.0
            ),
        },
    ),
    Case(
        "equalised_rest_volts",
        "packs_in_parallel.rest_volts_are_close",
        {"pack": "pack-12s3p-21700-rested", "pack_2": "pack-12s2p-21700-rested"},
        then=("fuse_in_the_branch", "fuse_in_the_branch_of_the_second_pack"),
    ),
    Case(
        "pre_charge_in_the_main_lead",
        "main_switch.contacts_close_without_a_spark",
        {
            "switch": "switch-loop-plug",
            "controller": made("controller-double-75v-60", pack_current=25.0),
            "pack": "pack-12s3p-21700-power",
        },
    ),
    Case(
        "speed_ceiling_setting",
        "ride_speed.speed_stays_under_the_ceiling",
        {
            "wish": made("wish-town", pull_floor=0.0),
            "pack": "pack-12s3p-21700-power",
            "controller": made("controller-double-75v-60", speed_ceiling=200.0, pack_current=20.0, motor_current=50.0),
            "rear_left_motor": "motor-63x62-190",
            "rear_left_drive_pulley": DRIVE_15,
            "rear_left_driven_pulley": "driven-36-six-lug",
            "rear_left_wheel": "wheel-90-six-window",
        },
    ),
    Case(
        "learn_to_stop_by_foot",
        "ride_brake.rider_can_stop_without_the_motor",
        {
            "rider": "rider-100",
            "wish": "wish-town",
            "rear_left_motor": "motor-63x62-190",
            "rear_left_drive_pulley": DRIVE_15,
            "rear_left_driven_pulley": "driven-36-six-lug",
        },
    ),
    Case(
        "not_ridden_in_the_wet",
        "water.motors_bear_water",
        {"route": "route-hilly-town", "rear_left_motor": made("motor-63x62-190", water_protection="none")},
    ),
)


@dataclass
class Bench:
    book: Book
    by_class: ByClass
    parts: dict[str, Part] = field(default_factory=dict)

    def part(self, told: Any) -> Part:
        name, sizes = told if isinstance(told, tuple) else (told, {})
        part = self.parts[name]
        for attribute, value in sizes.items():
            place, known = part.offers(attribute)
            part = with_reading(part, place, attribute, self.reading(part, attribute, known, value))
        return part

    def reading(self, part: Part, attribute: str, known: Reading | None, value: float | str) -> Reading:
        described = self.book.table.attribute_of(part.part_class, attribute)
        assert described is not None, f"{part.id} has no {attribute}"
        if isinstance(value, str):
            return Word(frozenset((value,)), CHOSEN, value)
        if isinstance(known, Count):
            return Count((round(value),), round(value), CHOSEN, f"{value:g}")
        return Number(value, value, value, described.unit, CHOSEN, f"{value:g}")

    def stock_of(self, part_class: str) -> tuple[Part, ...]:
        line_of = self.book.table.line_of
        return tuple(part for own, parts in self.by_class.items() if part_class in line_of(own) for part in parts)


@pytest.fixture(scope="module")
def bench(sqlite_catalogue: tuple[Any, Book, dict[str, list[Part]]]) -> Bench:
    _, book, by_class = sqlite_catalogue
    return Bench(book, by_class, {part.id: part for parts in by_class.values() for part in parts})


def states(board: Judged, rule: str) -> set[str]:
    return {finding.state for joint in board.joints for finding in joint.findings if finding.rule.id == rule}


def failing(board: Judged) -> set[str]:
    return {finding.rule.id for joint in board.joints for finding in joint.findings if finding.state == "fails"}


def workshop(bench: Bench, case: Case, book: Book) -> tuple[BoardWorkshop, Judged]:
    """The board as asked, and what can be done to it with the remedies of `book`."""
    pieces = tuple(Piece(seat, bench.part(told)) for seat, told in case.board.items())
    plan = SwapPlan(case.remedy, case.remedy, case.pattern, (), pieces)
    judge = BoardJudge(book.patterns[case.pattern], book, rulebook(), book.limits)
    asked = judge.judge(pieces)
    return BoardWorkshop(judge, plan, asked, None, bench.stock_of), asked


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.remedy)
def test_the_remedy_is_found_and_what_it_breaks_is_seen(bench: Bench, case: Case) -> None:
    """Among all remedies of the catalogue."""
    shop, asked = workshop(bench, case, bench.book)
    names = [one.name for one in shop.failing(asked) if one.name.endswith(f"|{case.rule}")]
    assert names, f"{case.rule} does not fail as asked: {states(asked, case.rule)}"
    told = []
    for move in shop.candidates(asked, Failing(names[0]), frozenset()):
        if move.remedy.id == case.remedy:
            after = shop.applied(asked, move)
            settled = states(after, case.rule) <= {"holds", "excused"}
            told.append((move.what, settled, sorted(failing(after) - failing(asked))))
    assert (True, sorted(case.breaks)) in [one[1:] for one in told], told


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.remedy)
def test_the_answer_takes_it_and_what_follows_from_it(bench: Bench, case: Case) -> None:
    """Where few other remedies are known."""
    known = {remedy.id: remedy for remedy in bench.book.remedies}
    book = dataclasses.replace(
        bench.book, remedies=tuple(known[own] for own in (case.remedy, *case.then, *case.beside))
    )
    shop, asked = workshop(bench, case, book)
    answer = mend(asked, shop.shop(), most_moves=9, most_nodes=200, expired=lambda: False)
    assert answer.complete
    if not case.mended:
        assert not answer.cures
        return
    assert answer.cures, "these remedies together do not mend the board"
    cure, board = answer.cures[0]
    assert {move.remedy.id for move in cure.moves} == {case.remedy, *case.then}
    assert not failing(board)


def test_enough_remedies_are_tried() -> None:
    assert len({case.remedy for case in CASES}) >= 20


# --- what the search does not do yet ------------------------------------------------------------------------


def whats(bench: Bench, case: Case) -> list[str]:
    """What the moves of the remedy say, among all that are offered for the rule."""
    shop, asked = workshop(bench, case, bench.book)
    names = [one.name for one in shop.failing(asked) if one.name.endswith(f"|{case.rule}")]
    offered = [move for name in names for move in shop.candidates(asked, Failing(name), frozenset())]
    return [move.what for move in offered if move.remedy.id == case.remedy]


def test_a_setting_that_is_not_set_can_be_set(bench: Bench) -> None:
    board = {
        "rear_left_motor": "motor-63x62-190",
        "controller": "controller-single-60v-50",  # its ceiling is unread, which counts as none
        "pack": "pack-12s3p-21700-power",
    }
    rule = "electrical_speed.speed_at_full_pack_stays_below_the_limit"
    assert whats(bench, Case("rev_ceiling_setting", rule, board))


def test_filing_takes_metal_away(bench: Bench) -> None:
    board = {
        "rear_left_wheel": "wheel-90-six-window",
        "rear_left_driven_pulley": made("driven-36-six-lug", lug_width=7.0),
    }
    assert not whats(bench, Case("filed_lugs", "core_windows.lugs_do_not_knock", board))


def test_a_second_riser_goes_on_a_first(bench: Bench) -> None:
    board = {"deck": PLY, "rear_truck": "truck-180-44", "rear_left_wheel": "wheel-107-six-window"}
    assert not whats(bench, Case("second_riser", "wheel_bite.wood_clears_the_wheel", board))
