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
