"""Plans that the documentation shows and the tests run, of parts of the shipped catalogue."""

from __future__ import annotations

from typing import Any

BOARD: dict[str, Any] = {
    "plan": "river-board",
    "title": "The board for the river path",
    "layout": "two_wheel_belt",
    "board": {
        "truck": "truck-180-44",
        "rear_wheel": "wheel-90-six-window",
        "driven_pulley": "driven-36-six-lug",
        "pack": "pack-10s3p-21700-power",
        "charger": "charger-10s-4",
    },
}
WHEELS: dict[str, Any] = {
    "plan": "other-wheels",
    "title": "Wheels with five windows",
    "board": {
        "truck": "truck-180-44",
        "rear_wheel": "wheel-90-six-window",
        "driven_pulley": "driven-36-six-lug",
    },
    "on": {"rear_wheel": "wheel-90-five-window"},
}
PACK: dict[str, Any] = {
    "plan": "larger-pack",
    "title": "Twelve cells in series, the charger kept",
    "board": {"pack": "pack-10s3p-21700-power", "charger": "charger-10s-4"},
    "on": {"pack": "pack-12s3p-21700-power"},
}
PACK_AND_CHARGER: dict[str, Any] = {
    "plan": "larger-pack-and-charger",
    "title": "Twelve cells in series with their charger",
    "board": {"pack": "pack-10s3p-21700-power", "charger": "charger-10s-4"},
    "on": {"pack": "pack-12s3p-21700-power", "charger": "charger-12s-4"},
}
SHELF: dict[str, Any] = {
    "plan": "from-the-shelf",
    "layout": "two_wheel_belt",
    "shelf": ["truck-180-44", "wheel-90-six-window", "wheel-90-five-window", "driven-36-six-lug"],
}
# A whole board, so that it can be ridden on paper: larger pulleys behind the rear wheels, and the belt for them.
GEARED: dict[str, Any] = {
    "plan": "larger-pulleys",
    "title": "Larger pulleys for the river path",
    "layout": "two_wheel_belt",
    "board": {
        "deck": "deck-ply-insert-480-800",
        "grip": "grip-paper-1",
        "truck": "truck-180-48-cast",
        "bushing": "bushings-90-barrel",
        "riser": "riser-6",
        "deck_bolt": "deck-bolt-10-32-38",
        "deck_nut": "deck-nut-10-32",
        "wheel": "wheel-90-six-window",
        "bearing": "bearing-608",
        "spacer": "bearing-spacer-10-1",
        "speed_ring": "speed-ring-8-1-0",
        "outer_speed_ring": "speed-ring-8-1-0",
        "axle_nut": "axle-nut-m8",
        "rear_inner_spacer": "inner-spacer-8-15",
        "driven_pulley": "driven-36-six-lug",
        "drive_pulley": "drive-pulley-5mm-15-hub-out",
        "belt": "belt-5mm-265-15",
        "motor": "motor-63x50-170",
        "motor_mount": "motor-mount-round-31-8-inset-19",
        "motor_screw": "motor-screw-m4x14",
        "box": "box-very-long-soft-pad",
        "gasket": "gasket-foam-3",
        "box_screw": "box-screw-m4x12",
        "pack": "pack-10s3p-21700-power",
        "bms": "bms-10s-60-charge-20",
        "fuse": "fuse-bolt-40-80v-near",
        "switch": "switch-anti-spark-60v",
        "main_lead": "main-lead-10awg-open",
        "pack_plug": "connector-block-90-socket-metered",
        "rail_plug": "connector-block-90-plug-metered",
        "controller": "controller-double-60v-set-10s",
        "charger": "charger-10s-2",
        "charge_port": "charge-port-barrel-2-1",
        "receiver": "receiver-servo",
        "remote": "remote-thumb-wheel",
    },
    "rider": {"mass": "80 kg", "skill": "practised", "board_mass": "11 +-0.5 kg"},
    "route": {"slope": "8 %", "surface": "smooth", "wet": "yes"},
    "on": {"driven_pulley": "driven-40-six-lug", "belt": "belt-5mm-275-15"},
}
WAY = "distance [m],elevation [m],speed [km/h]\n0,112,10\n400,112,18\n700,124,12\n1200,113,18\n"
