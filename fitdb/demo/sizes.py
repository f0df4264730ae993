"""What invented catalogues are drawn from: which classes are common, and at which sizes the trade clusters.

Every figure here is common practice, no source: they shape a demo, no verdict follows from them.
"""

from __future__ import annotations

from collections.abc import Mapping

# How many parts in a thousand are of a class; a class that is not named here gets ONE_OF_MANY.
ONE_OF_MANY = 3.0
SHARES: Mapping[str, float] = {
    "wheel": 150,
    "belt": 60,
    "bearing": 55,
    "deck": 55,
    "motor": 50,
    "driven_pulley": 50,
    "drive_pulley": 45,
    "truck": 45,
    "controller": 40,
    "pack": 40,
    "cap_screw": 35,
    "deck_bolt": 30,
    "motor_mount": 30,
    "hanger": 20,
    "enclosure": 25,
    "bushing_set": 20,
    "tyre_wheel": 20,
    "hex_nut": 15,
    "lead": 15,
    "sensor_lead": 15,
    "phase_extension": 15,
    "power_connector": 15,
    "axle_nut": 12,
    "bearing_spacer": 12,
    "inner_spacer": 12,
    "charger": 12,
    "bms": 12,
    "receiver": 12,
    "fuse": 12,
    "hub_motor": 10,
    "charge_port": 10,
    "switch": 8,
    "cell": 8,
    "gear_drive": 6,
    "direct_drive": 6,
    "rider": 0.3,
    "route": 0.3,
    "wish": 0.3,
}

# Sizes in the attribute's canonical unit, the most common first.
TRADE_SIZES: Mapping[tuple[str, str], tuple[float, ...]] = {
    ("wheel", "outer_diameter"): (90, 97, 83, 100, 80, 85, 105, 76, 107, 110, 72, 92, 78, 70, 96, 74, 115, 120),
    ("wheel", "width"): (52, 54, 50, 56, 46, 48, 60, 44, 58, 62),
    ("wheel", "hardness"): (78, 80, 76, 75, 82, 74, 77, 83),
    ("wheel", "core_offset"): (0, -2, 2, -4, 4, -3, 3, -6, 6),
    ("tyre_wheel", "outer_diameter"): (150, 175, 165, 200, 180, 155, 190),
    ("tyre_wheel", "width"): (50, 45, 55, 60),
    ("belt", "width"): (15, 12, 16, 9, 20, 10),
    ("deck", "length"): (950, 980, 920, 1000, 960, 900, 1040, 880, 1080, 850, 1100, 800),
    ("deck", "width"): (230, 228, 235, 225, 240, 220, 250, 245),
    ("deck", "thickness"): (12, 11, 13, 10, 14, 12.5, 9, 15),
    ("deck", "wheelbase"): (680, 700, 640, 720, 660, 740, 620, 760, 600, 800),
    ("truck", "hanger_width"): (180, 184, 160, 190, 150, 200, 218, 165, 240, 270),
    ("truck", "axis_angle"): (50, 44, 45, 48, 42, 52, 35, 40),
    ("hanger", "hanger_width"): (180, 184, 160, 190, 150, 200, 218, 165, 240, 270),
    ("bushing_set", "hardness"): (90, 93, 85, 87, 95, 81, 97, 78),
    ("driven_pulley", "face_width"): (16, 17, 13, 18, 21, 10),
    ("drive_pulley", "face_width"): (16, 17, 13, 18, 21, 10),
    ("motor", "velocity_constant"): (190, 170, 200, 140, 230, 150, 270, 160, 180, 245, 280, 120),
    ("motor", "lead_length"): (150, 180, 200, 250, 120, 300),
    ("controller", "motor_current"): (60, 80, 100, 50, 70, 120, 40, 90, 150),
    ("pack", "rest_volts"): (36, 37, 43.2, 44.4, 46.8, 50.4, 25.2),
    ("deck_bolt", "length"): (32, 38, 25, 30, 35, 40, 45, 50, 28, 22, 55, 60),
    ("cap_screw", "length"): (10, 12, 8, 16, 20, 14, 25, 6, 30, 35, 40, 18, 22),
    ("bearing_spacer", "length"): (10, 10.2, 8, 10.05, 9.8, 12),
    ("inner_spacer", "length"): (5, 3, 8, 10, 2, 12, 15, 20, 6, 4),
    ("lead", "length"): (200, 300, 150, 400, 500, 100, 250),
    ("sensor_lead", "length"): (150, 200, 300, 100, 400, 500),
    ("phase_extension", "length"): (150, 200, 300, 100, 400, 500),
    ("charger", "charge_current"): (2, 3, 4, 5, 2.5, 8, 1.5),
    ("fuse", "rated_current"): (60, 80, 40, 100, 50, 30, 70, 120),
}

# Sizes that differ a little from maker to maker, whatever the class, and the step at which they are stated.
LOOSE_SIZES: Mapping[str, float] = {
    "mass": 0.005,
    "mass_rating": 5,
    "max_rpm": 100,
    "stiffness": 5,
    "half_width_at_wheel": 1,
    "concave": 1,
    "flat_width": 5,
    "body_length": 1,
    "body_width": 1,
    "body_height": 0.5,
    "line_resistance": 1,
    "continuous_current": 5,
    "peak_current": 5,
    "no_load_current": 0.1,
    "cell_resistance": 1,
    "link_resistance": 1,
    "plate_thickness": 0.5,
    "thickness": 0.5,
    "total_height": 0.5,
    "depth": 1,
    "rim_width": 1,
    "static_rating": 0.01,
    "supply_current": 0.01,
    "balance_current": 0.01,
}

# What varies from one interface to another of a kind, and by how much at a time. Threads and pitches are standards.
INTERFACE_STEPS: Mapping[str, Mapping[str, float]] = {
    "hole_pattern": {"grid_length": 0.5, "grid_width": 0.5, "hole_diameter": 0.1},
    "wheel_core": {
        "window_circle_radius": 0.5,
        "window_width": 0.2,
        "window_radial_height": 0.5,
        "window_depth": 0.5,
        "core_width": 1,
    },
    "lug_ring": {"lug_circle_radius": 0.5, "lug_width": 0.2, "lug_radial_height": 0.5, "lug_length": 0.5},
    "bolt_ring": {"bolt_circle": 1, "bolt_length": 5, "clamped_thickness": 1},
    "bearing_seat": {"seat_depth": 0.1},
    "axle": {"axle_length": 1},
    "belt_teeth": {"teeth": 1},
    "bore": {},
    "shaft": {"shaft_length": 1, "flat_depth": 0.1},
    "motor_face": {"face_circle": 1, "boss_diameter": 1, "face_thread_depth": 0.5},
    "mount_slots": {"slot_circle": 1, "slot_width": 0.1},
    "hanger_profile": {"size_a": 0.5, "size_b": 0.5, "draft": 0.25},
    "hanger_clamp": {"clamp_bore": 0.5, "clamp_bore_b": 0.5, "closing_range": 0.1},
    "opening": {"opening_length": 1, "opening_width": 0.5, "bend_radius": 1},
    "plug": {"section_a": 0.1, "section_b": 0.1},
    "insert_grid": {"grid_length": 1, "grid_width": 1, "insert_depth": 0.5},
    "cavity": {"cavity_length": 5, "cavity_width": 2, "cavity_height": 1, "corner_radius": 1},
    "rail": {"absolute_volts": 1, "least_volts": 1},
    "current_link": {"link_current": 5, "link_resistance": 0.05},
    "signal": {"supply_most": 0.5},
    "charge_plug": {"plug_current": 0.5, "pin_diameter": 0.1},
    "phase_bullet": {"bullet_current": 5, "bullet_diameter": 0.5},
    "sensor_plug": {"sensor_volts_most": 0.5, "sensor_supply": 0.1},
}

# Syllables of makers' names; the names are put together by dice and stand for nobody.
FIRST_SYLLABLES = ("Or", "Vel", "Tam", "Kru", "Mis", "Dol", "Fen", "Gar", "Ulm", "Pra", "Zor", "Hel", "Bry", "Nak")
MIDDLE_SYLLABLES = ("me", "to", "vi", "la", "ru", "ka", "sho", "ni", "ple", "gu")
LAST_SYLLABLES = ("lk", "rn", "sta", "vo", "ndu", "xa", "tt", "mo", "ri", "psk")
