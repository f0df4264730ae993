"""A small board for plan files: two trucks with stacks of risers, four wheels, two belts, and who rides it."""

from __future__ import annotations

from typing import Any

import yaml

from fitdb.catalogue.layouts import Layouts
from fitdb.intake.readings import own_source
from fitdb.model.interface import Interface, InterfaceKind
from fitdb.model.part import Attribute, AttributeTable, Part, PartClass
from fitdb.model.reading import Count, Number
from fitdb.model.source import Source, Spread

PRACTICE = Source("practice", "default", "common practice, no source", "common practice, no source")


def _seat(own: str, per: str, row: str, place: int, classes: str, title: str, groups: str) -> dict[str, object]:
    return {
        "pattern_id": "board", "id": own, "per": per, "row": row, "place": place, "classes": classes, "title": title,
        "groups": groups,
    }  # fmt: skip


LAYOUTS = Layouts(
    patterns=[
        {"id": "board", "title": "every seat", "lines_of": "", "groups": ""},
        {"id": "two_wheel_belt", "title": "Two-wheel belt drive", "lines_of": "board",
         "groups": "deck truck wheel ride belt@rear_left,rear_right"},
        {"id": "push_board", "title": "No drive", "lines_of": "board", "groups": "deck truck wheel ride"},
    ],
    seats=[
        _seat("deck", "", "deck", 1, "deck", "deck", "deck"),
        _seat("lead", "", "lead", 1, "lead", "lead", "deck"),
        _seat("lead_2", "", "lead", 2, "lead", "second lead", "deck"),
        _seat("{end}_truck", "end", "truck", 1, "truck", "truck", "truck"),
        _seat("{end}_riser", "end", "riser", 1, "riser", "riser under the truck", "truck"),
        _seat("{end}_riser_2", "end", "riser", 2, "riser", "second riser", "truck"),
        _seat("{place}_wheel", "place", "wheel", 1, "wheel tyre_wheel", "wheel", "wheel"),
        _seat("{place}_belt", "place", "belt", 1, "belt", "belt", "belt"),
        _seat("rider", "", "rider", 1, "rider", "rider", "ride"),
        _seat("route", "", "route", 1, "route", "route", "ride"),
        _seat("wish", "", "wish", 1, "wish", "what is wished for", "ride"),
    ],
    lines=[], roles=[],
)  # fmt: skip


def _attribute(owner: str, name: str, reading: str, unit: str, family: str, most: float = 1e4) -> Attribute:
    words = ("coarse", "smooth") if reading == "word" else ()
    return Attribute(
        owner=owner, name=name, reading=reading, unit=unit, title=name.replace("_", " "), physical=(0.0, most),
        plausible=None, default=None, default_spread=(0.0, 0.0), vocabulary=words, open_vocabulary=False, fit="",
        family=family, tool="caliper", how="", source=PRACTICE,
    )  # fmt: skip


ATTRIBUTES = (
    _attribute("deck", "length", "number", "mm", "soft_edge"),
    _attribute("truck", "hanger_width", "number", "mm", "hard_edge"),
    _attribute("riser", "thickness", "number", "mm", "hard_edge"),
    _attribute("wheel", "outer_diameter", "number", "mm", "soft_edge"),
    _attribute("wheel", "wear", "number", "mm", "soft_edge"),
    _attribute("wheel_core", "window_width", "number", "mm", "hard_edge"),
    _attribute("wheel_core", "window_count", "count", "", ""),
    _attribute("belt", "length", "number", "mm", "soft_edge"),
    _attribute("belt_teeth", "teeth", "count", "", ""),
    _attribute("belt_teeth", "tooth_pitch", "number", "mm", "rating"),
    _attribute("rider", "mass", "number", "kg", "rating", 250),
    _attribute("route", "slope", "number", "percent", "rating", 60),
    _attribute("route", "surface", "word", "", ""),
    _attribute("wish", "ratio_target", "number", "", "rating"),
    _attribute("wish", "ratio_floor", "number", "", "rating"),
    _attribute("wish", "speed_target", "number", "km/h", "rating"),
    _attribute("wish", "speed_floor", "number", "km/h", "rating"),
    _attribute("wish", "speed_ceiling", "number", "km/h", "rating"),
)
CLASSES = (
    PartClass("deck", "Deck", (), True, {}, PRACTICE),
    PartClass("lead", "Lead", (), False, {}, PRACTICE),
    PartClass("truck", "Truck", (), True, {}, PRACTICE),
    PartClass("riser", "Riser", (), False, {}, PRACTICE),
    PartClass("wheel", "Wheel", (), False, {"core": "wheel_core"}, PRACTICE),
    PartClass("tyre_wheel", "Wheel with tyre", ("wheel",), False, {}, PRACTICE),
    PartClass("belt", "Belt", (), False, {"teeth": "belt_teeth"}, PRACTICE),
    PartClass("rider", "Rider", (), True, {}, PRACTICE),
    PartClass("route", "Route", (), True, {}, PRACTICE),
    PartClass("wish", "Wish", (), True, {}, PRACTICE),
)
TABLE = AttributeTable(
    classes={one.id: one for one in CLASSES},
    kinds={kind: InterfaceKind(kind, kind.replace("_", " ")) for kind in ("wheel_core", "belt_teeth")},
    attributes={(one.owner, one.name): one for one in ATTRIBUTES},
    spreads={
        (kind, family): Spread(kind, family, 0.1, 0.1, False, "practice")
        for kind in ("caliper", "data_sheet")
        for family in ("hard_edge", "soft_edge")
    },
    sources={"practice": PRACTICE},
)
CORE = Interface("core-six", "wheel_core", "six windows", {"window_count": Count((6,), 6, PRACTICE, "6")}, "s" * 64)
# ISO 5296: a belt of 56 teeth of 5 mm pitch has a pitch length of 280 mm.
TEETH = Interface(
    "teeth-5-56", "belt_teeth", "56 teeth of 5 mm",
    {"teeth": Count((56,), 56, PRACTICE, "56"), "tooth_pitch": Number(5, 5, 5, "mm", PRACTICE, "5")}, "t" * 64,
)  # fmt: skip


def _part(own: str, part_class: str, **sizes: float) -> Part:
    readings = {name: Number(size, size, size, "mm", PRACTICE, str(size)) for name, size in sizes.items()}
    ports = {"wheel": {"core": CORE}, "belt": {"teeth": TEETH}}.get(part_class, {})
    return Part(own, part_class, own, dict(readings), ports, PRACTICE)


PARTS = {
    part.id: part
    for part in (
        _part("deck-ply", "deck", length=900),
        _part("lead-red", "lead"),
        _part("lead-black", "lead"),
        _part("truck-hex", "truck"),
        _part("truck-old", "truck"),
        _part("riser-3", "riser", thickness=3),
        _part("riser-6", "riser", thickness=6),
        _part("wheel-83", "wheel", outer_diameter=83),
        _part("wheel-97", "wheel", outer_diameter=97),
        _part("tyre-150", "tyre_wheel", outer_diameter=150),
        _part("belt-280", "belt", length=280),
        _part("rider-80", "rider"),
    )
}
CALIPER = own_source("caliper")


def decoded(text: str) -> dict[str, Any]:
    """The plan as a front end would send it; a YAML 1.1 reader takes the keys on and off for true and false."""
    words = {True: "on", False: "off"}
    return {words[key] if isinstance(key, bool) else key: value for key, value in yaml.safe_load(text).items()}


def keywords() -> dict[str, object]:
    """What a front door hands to the plan reader. Every look-up makes a new Part, as a database does."""

    def look_up(own: str) -> Part | None:
        found = PARTS.get(own)
        if found is None:
            return None
        return Part(found.id, found.part_class, found.title, dict(found.readings), dict(found.ports), found.source)

    return {
        "patterns": LAYOUTS, "table": TABLE, "fits": {}, "catalogue_part": look_up,
        "catalogue_interface": {"core-six": CORE, "teeth-5-56": TEETH}.get, "part_ids_near": lambda typed: tuple(PARTS),
        "tools": ("drill", "file"), "limit_keys": ("wheel_bite.clearance.low",),
    }  # fmt: skip
