"""How the parts of whole_swaps.yaml are said in the catalogue's own words: one table, kind and size by kind and size.

Rows are about kinds of parts alone. A row gives the class and attribute that a told size stands for, where a class has
several places the port, and what else the same words settle: a key way is cut for a key, 5 mm teeth have a form. Sizes
of the two usual tooth pitches, keys and bearings that nobody tells stand in USUAL; they are what lies in every drawer.
"""

from __future__ import annotations

from dataclasses import dataclass, field


@dataclass(frozen=True, slots=True)
class Target:
    """Where a told size goes. flip: our sign is the other one. per_parallel: told of one cell, ours is of the pack.

    part_class: another class than the part's own, for a size that is told on one part and read on its neighbour. words:
    what other words are settled by the same value.
    """

    attribute: str
    port: str = ""
    part_class: str = ""
    flip: bool = False
    per_parallel: bool = False
    words: dict[str, tuple[str, str, str]] = field(default_factory=dict)  # value -> (attribute, port, word)


# Kind as told -> our class, and the seat (as people call it) where such a part stands.
CLASSES: dict[str, tuple[str, tuple[str, ...]]] = {
    "wheel": ("wheel", ("wheel",)),
    "deck": ("deck", ("deck",)),
    "truck set": ("truck", ("truck",)),
    "hanger": ("hanger", ("hanger",)),
    "riser": ("riser", ("riser",)),
    "deck bolts": ("deck_bolt", ("deck_bolt",)),
    "rider": ("rider", ("rider",)),
    "bearing": ("bearing", ("bearing",)),
    "bearing spacer": ("bearing_spacer", ("spacer",)),
    "inner spacer": ("inner_spacer", ("inner_spacer",)),
    "axle nut": ("axle_nut", ("axle_nut",)),
    "driven pulley": ("driven_pulley", ("driven_pulley",)),
    "lug plate": ("lug_plate", ("lug_plate",)),
    "drive pulley": ("drive_pulley", ("drive_pulley",)),
    "belt": ("belt", ("belt",)),
    "belt cover": ("belt_cover", ("belt_cover",)),
    "motor": ("motor", ("motor",)),
    "motor screws": ("motor_screw", ("motor_screw",)),
    "motor mount": ("motor_mount", ("motor_mount",)),
    "gear drive": ("gear_drive", ("gear_drive",)),
    "hub motor": ("hub_motor", ("hub_motor",)),
    "hub sleeve": ("hub_sleeve", ("hub_sleeve",)),
    "enclosure": ("enclosure", ("box",)),
    "lead to the axle": ("phase_lead", ("phase_lead",)),
    "main lead": ("lead", ("main_lead",)),
    "power connector": ("power_connector", ("pack_plug",)),
    "pack": ("pack", ("pack", "pack_2")),
    "BMS": ("bms", ("bms",)),
    "fuse": ("fuse", ("fuse",)),
    "switch": ("switch", ("switch",)),
    "charger": ("charger", ("charger",)),
    "charge port": ("charge_port", ("charge_port",)),
    "controller": ("controller", ("controller", "controller_2")),
    "receiver": ("receiver", ("receiver",)),
}

TOOTH_FORMS = {"3": ("tooth_form", "teeth", "curvilinear_3"), "5": ("tooth_form", "teeth", "curvilinear_5")}
TEETH = (Target("teeth", "teeth"),)
PITCH = (Target("tooth_pitch", "teeth", words=TOOTH_FORMS),)
PLUG = (Target("charge_plug_form", "plug"),)
PIN = (Target("pin_diameter", "plug"),)

# (kind, size as told) -> where it goes in our words; `count` fills that many seats and is no reading.
SIZES: dict[tuple[str, str], tuple[Target, ...]] = {
    ("wheel", "outer_dia"): (Target("outer_diameter"),),
    ("wheel", "width"): (Target("width"),),
    ("wheel", "seat_dia"): (Target("seat_diameter", "seat"),),
    ("wheel", "seat_depth"): (Target("seat_depth", "seat"),),
    ("wheel", "seat_gap"): (Target("seat_gap"),),
    # Told: how far the core sits inward. Ours: how far the seats lie outward.
    ("wheel", "core_offset"): (Target("core_offset", flip=True),),
    ("wheel", "core_windows"): (Target("window_count", "core"),),
    ("wheel", "window_circle_r"): (Target("window_circle_radius", "core"),),
    ("wheel", "window_width"): (Target("window_width", "core"),),
    ("wheel", "window_depth"): (Target("window_depth", "core"),),
    ("wheel", "sink"): (Target("sink"),),
    ("wheel", "inner_face"): (Target("inner_face"),),
    ("wheel", "outer_face"): (Target("outer_face"),),
    ("deck", "half_width_at_wheel"): (Target("half_width_at_wheel"),),
    ("deck", "thickness"): (Target("thickness"),),
    ("deck", "stiffness_mid"): (Target("stiffness"),),
    ("deck", "span"): (Target("wheelbase"),),
    ("deck", "camber"): (Target("camber"),),
    ("deck", "hole_grid_length"): (Target("grid_length", "truck_holes"),),
    ("deck", "hole_grid_width"): (Target("grid_width", "truck_holes"),),
    ("truck set", "kingpins"): (Target("kingpins"),),
    ("truck set", "axle_to_deck_face"): (Target("axle_to_deck_face"),),
    ("truck set", "axis_angle"): (Target("axis_angle"),),
    ("truck set", "max_lean"): (Target("max_lean"),),
    ("truck set", "plate_thickness"): (Target("plate_thickness"),),
    ("truck set", "hole_grid_length"): (Target("grid_length", "deck_holes"),),
    ("truck set", "hole_grid_width"): (Target("grid_width", "deck_holes"),),
    ("hanger", "axle_dia"): (Target("axle_diameter", "axle"),),
    ("hanger", "axle_usable"): (Target("axle_length", "axle"),),
    ("hanger", "barrel_form"): (Target("form", "profile"),),
    ("hanger", "barrel_dia"): (Target("size_a", "profile"),),
    ("hanger", "draft"): (Target("draft", "profile"),),
    ("hanger", "clear_length"): (Target("clear_length"),),
    ("riser", "thickness"): (Target("thickness"),),
    ("deck bolts", "length"): (Target("length"),),
    ("deck bolts", "nut"): (Target("height", part_class="deck_nut"),),
    ("rider", "mass"): (Target("mass"),),
    ("bearing", "bore"): (Target("bore"),),
    ("bearing", "outer"): (Target("outer_diameter"),),
    ("bearing", "width"): (Target("width"),),
    ("bearing spacer", "length"): (Target("length"),),
    ("inner spacer", "length"): (Target("length"),),
    ("axle nut", "height"): (Target("height"),),
    ("axle nut", "thread"): (Target("thread", "thread"),),
    # A nut that is on its axle tells the axle's pitch.
    ("axle nut", "pitch"): (Target("pitch", "thread"), Target("thread_pitch", "axle", part_class="hanger")),
    ("driven pulley", "teeth"): TEETH,
    ("driven pulley", "pitch"): PITCH,
    ("driven pulley", "flange_over_pitch"): (Target("flange_height"),),
    ("driven pulley", "face"): (Target("face_width"),),
    ("driven pulley", "lugs"): (Target("lug_count", "lugs"),),
    ("driven pulley", "lug_circle_r"): (Target("lug_circle_radius", "lugs"),),
    ("driven pulley", "lug_width"): (Target("lug_width", "lugs"),),
    ("lug plate", "thickness"): (Target("axial_thickness"),),
    ("lug plate", "core_windows"): (Target("window_count", "core"),),
    ("lug plate", "window_circle_r"): (Target("window_circle_radius", "core"),),
    ("lug plate", "window_width"): (Target("window_width", "core"),),
    ("lug plate", "lugs"): (Target("lug_count", "lugs"),),
    ("lug plate", "lug_circle_r"): (Target("lug_circle_radius", "lugs"),),
    ("lug plate", "lug_width"): (Target("lug_width", "lugs"),),
    ("drive pulley", "teeth"): TEETH,
    ("drive pulley", "pitch"): PITCH,
    ("drive pulley", "bore"): (Target("bore_diameter", "bore"),),
    ("drive pulley", "keyway"): (Target("keyway_width", "bore"),),
    ("drive pulley", "fix"): (Target("lock", "bore"),),
    ("drive pulley", "set_screws"): (Target("set_screws"),),
    ("drive pulley", "face"): (Target("face_width"),),
    ("drive pulley", "hub_length"): (Target("hub_length"),),
    ("belt", "length"): (Target("length"),),
    ("belt", "width"): (Target("width"),),
    ("belt", "pitch"): PITCH,
    ("belt", "teeth"): TEETH,
    ("belt cover", "inner_width"): (Target("inner_width"),),
    ("motor", "kv"): (Target("velocity_constant"),),
    ("motor", "pole_pairs"): (Target("pole_pairs"),),
    ("motor", "can_dia"): (Target("can_diameter"),),
    ("motor", "can_len"): (Target("can_length"),),
    ("motor", "shaft_dia"): (Target("shaft_diameter", "shaft"),),
    ("motor", "shaft_usable"): (Target("shaft_length", "shaft"),),
    ("motor", "shaft_form"): (Target("shaft_form", "shaft"),),
    ("motor", "flat_depth"): (Target("flat_depth", "shaft"),),
    ("motor", "key"): (Target("key_width", "shaft", words={"3": ("shaft_form", "shaft", "key")}),),
    ("motor", "face_circle"): (Target("face_circle", "face"),),
    ("motor", "face_thread"): (Target("thread", "face"),),
    ("motor", "resistance"): (Target("line_resistance"),),
    ("motor", "bullet"): (Target("bullet_diameter", "phases"),),
    ("motor", "sensor_ways"): (Target("ways", "sensors"),),
    ("motor", "sensor_pitch"): (Target("pin_pitch", "sensors"),),
    ("motor", "pin_order"): (Target("pin_order", "sensors"),),
    ("motor", "temp_sensor"): (Target("temperature_sensor", "sensors"),),
    ("motor screws", "length"): (Target("length"),),
    ("motor mount", "slot_circle"): (Target("slot_circle", "slots"),),
    ("motor mount", "plate"): (Target("plate_thickness"),),
    ("motor mount", "centre_min"): (Target("centre_min"),),
    ("motor mount", "centre_max"): (Target("centre_max"),),
    ("motor mount", "clamp_form"): (Target("clamp_form", "clamp"),),
    ("motor mount", "clamp_bore"): (Target("clamp_bore", "clamp"),),
    ("motor mount", "closing_range"): (Target("closing_range", "clamp"),),
    ("motor mount", "clamp_width"): (Target("clamp_width"),),
    ("gear drive", "ratio"): (Target("ratio"),),
    ("gear drive", "housing_r"): (Target("housing_radius"),),
    ("gear drive", "clamp_form"): (Target("clamp_form", "clamp"),),
    ("gear drive", "clamp_bore"): (Target("clamp_bore", "clamp"),),
    ("gear drive", "axle_needed"): (Target("axle_bore"),),
    # A sleeve is as wide inside as the can that it is made for.
    ("hub motor", "sleeve_id"): (Target("can_diameter"),),
    ("hub motor", "kv"): (Target("velocity_constant"),),
    ("hub motor", "pole_pairs"): (Target("pole_pairs"),),
    ("hub motor", "sensor_ways"): (Target("ways", "sensors"),),
    ("hub motor", "sensor_pitch"): (Target("pin_pitch", "sensors"),),
    ("hub motor", "bullet"): (Target("bullet_diameter", "phases"),),
    ("hub sleeve", "sleeve_od"): (Target("outer_diameter"),),
    ("enclosure", "length"): (Target("length"),),
    ("enclosure", "depth"): (Target("depth"),),
    ("enclosure", "fixing"): (Target("fixing"),),
    ("enclosure", "rim_give"): (Target("rim_give"),),
    ("enclosure", "conductive"): (Target("conductive"),),
    ("lead to the axle", "spare"): (Target("spare_length"),),
    ("main lead", "area"): (Target("area"),),
    ("power connector", "amps"): (Target("link_current", "link"),),
    ("pack", "series"): (Target("series"),),
    ("pack", "parallel"): (Target("parallel"),),
    ("pack", "cell_format"): (Target("cell_format"),),
    ("pack", "cell_ah"): (Target("capacity_ah", per_parallel=True),),
    ("pack", "cell_cont"): (Target("cell_continuous_current"),),
    ("pack", "cell_charge"): (Target("cell_charge_current"),),
    # What the sheet of a cell calls its standard charge is what the cell may be charged with.
    ("pack", "cell_std_charge"): (Target("cell_charge_current"),),
    ("pack", "cell_res"): (Target("cell_resistance"),),
    ("pack", "rest_volts"): (Target("rest_volts"),),
    ("BMS", "series"): (Target("series"),),
    ("BMS", "discharge"): (Target("link_current", "link"),),
    ("BMS", "charge"): (Target("charge_current"),),
    ("BMS", "trip"): (Target("trip_current"),),
    ("BMS", "over_volts_cell"): (Target("cell_over_volts"),),
    ("fuse", "volts"): (Target("absolute_volts", "rail"),),
    ("fuse", "amps"): (Target("rated_current"),),
    ("fuse", "breaking"): (Target("breaking_current"),),
    ("switch", "volts"): (Target("absolute_volts", "rail"),),
    ("charger", "volts"): (Target("open_volts"),),
    ("charger", "amps"): (Target("charge_current"),),
    ("charger", "plug"): PLUG,
    ("charger", "pin_dia"): PIN,
    ("charger", "polarity"): (Target("polarity", "plug"),),
    ("charger", "plug_amps"): (Target("plug_current", "plug"),),
    ("charge port", "plug"): PLUG,
    ("charge port", "pin_dia"): PIN,
    ("charge port", "polarity"): (Target("polarity", "plug"),),
    ("charge port", "amps"): (Target("plug_current", "plug"),),
    ("charge port", "fuse"): (Target("fuse_current"),),
    ("controller", "volts_abs"): (Target("absolute_volts", "rail"),),
    ("controller", "motor_current"): (Target("motor_current"),),
    ("controller", "pack_current_limit_set"): (Target("pack_current"),),
    ("controller", "braking_charge_set"): (Target("braking_charge_limit"),),
    ("controller", "electrical_speed_limit"): (Target("electrical_speed_limit"),),
    ("controller", "signal"): (Target("signal_form", "input"),),
    ("controller", "aux_volts"): (Target("auxiliary_volts"),),
    ("controller", "aux_amps"): (Target("auxiliary_current"),),
    ("controller", "on_signal_loss"): (Target("on_signal_loss"),),
    ("controller", "bullet"): (Target("bullet_diameter", "phase_socket"),),
    ("controller", "sensor_ways"): (Target("ways", "sensor_input"),),
    ("controller", "sensor_pitch"): (Target("pin_pitch", "sensor_input"),),
    ("controller", "pin_order"): (Target("pin_order", "sensor_input"),),
    ("controller", "sensor_supply"): (Target("sensor_supply", "sensor_input"),),
    ("controller", "temp_sensor"): (Target("temperature_setting"),),
    ("receiver", "signal"): (Target("signal_form", "output"),),
    ("receiver", "supply_min"): (Target("supply_least", "output"),),
    ("receiver", "supply_max"): (Target("supply_most", "output"),),
    ("receiver", "draw"): (Target("supply_current"),),
    ("receiver", "signal_loss_output"): (Target("signal_loss_output"),),
}

COUNT = "count"  # how many of these there are; two are what a board has of everything that drives

# What nobody tells and for which the class has no default, by (class, port, attribute), as typed. Common practice, no
# source, where none is named.
USUAL: dict[tuple[str, str, str], str] = {
    ("driven_pulley", "teeth", "tooth_pitch"): "5 +-0 mm",
    ("driven_pulley", "teeth", "tooth_form"): "curvilinear_5",
    ("drive_pulley", "teeth", "tooth_pitch"): "5 +-0 mm",
    ("drive_pulley", "teeth", "tooth_form"): "curvilinear_5",
    ("belt", "teeth", "tooth_pitch"): "5 +-0 mm",
    ("belt", "teeth", "tooth_form"): "curvilinear_5",
    ("belt", "", "allowed_pull_per_width"): "30 +-0 N/mm",  # 5 mm teeth, glass cord
    ("drive_pulley", "bore", "lock"): "key",
    ("drive_pulley", "bore", "keyway_width"): "3 mm",  # DIN 6885: 3 × 3 for shafts of 8 to 10 mm
    ("wheel", "seat", "seat_depth"): "7 +-0 mm",  # ISO 15: a 608 is 7 mm wide
    ("wheel", "", "core_offset"): "0 +-0 mm",
    ("deck", "", "thickness"): "12 +-0 mm",
    ("truck", "", "plate_thickness"): "6 +-0 mm",
    ("truck", "", "axis_angle"): "50 +-0 deg",
    ("truck", "", "hanger_width"): "180 +-0 mm",
    ("truck", "deck_holes", "grid_length"): "63.5 +-0 mm",  # looked at under a wedge alone
    ("motor", "", "peak_current"): "70 +-0 A",  # looked at where no controller sets a current
    ("bms", "", "discharge_bypassed"): "no",
    ("bms", "", "port_layout"): "common_port",
    ("pack", "", "chemistry"): "nickel",  # 4.20 V a cell
    ("controller", "", "channels"): "1",
    ("lead", "", "laying"): "open_air",
    ("receiver", "", "antenna"): "inside",
}

# Small parts that come with others and that nobody names: class, seats, and the class beside which they lie.
COME_ALONG: tuple[tuple[str, tuple[str, ...], str], ...] = (
    ("speed_ring", ("speed_ring", "outer_speed_ring"), "axle_nut"),
)
