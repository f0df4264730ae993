"""A small attribute table: a wheel with a core, a bearing seat and two bolt ports, and a bit of everything to read."""

from __future__ import annotations

from collections.abc import Callable
from types import SimpleNamespace

import pytest

from fitdb.intake.readings import FitBand, FitName, Fits, own_source
from fitdb.model.interface import Interface, InterfaceKind
from fitdb.model.part import Attribute, AttributeTable, Part, PartClass
from fitdb.model.reading import Number
from fitdb.model.source import Source, Spread

PRACTICE = Source("practice", "default", "common practice, no source", "common practice, no source")


def attribute(owner: str, name: str, reading: str = "number", unit: str = "mm", **changed: object) -> Attribute:
    given: dict[str, object] = {
        "owner": owner, "name": name, "reading": reading, "unit": unit, "title": name.replace("_", " "),
        "physical": None, "plausible": None, "default": None, "default_spread": (0.0, 0.0), "vocabulary": (),
        "open_vocabulary": False, "fit": "", "family": "", "tool": "caliper", "how": "", "source": PRACTICE,
    }  # fmt: skip
    return Attribute(**{**given, **changed})  # type: ignore[arg-type]


def attributes() -> tuple[Attribute, ...]:
    return (
        attribute("wheel", "outer_diameter", physical=(20, 400), plausible=(60, 250), family="soft_edge"),
        attribute("wheel", "max_rpm", unit="rpm", physical=(0, 100_000), family="rating"),
        attribute("wheel", "hardness", unit="shore_a", physical=(0, 100), default=78.0, default_spread=(4.0, 2.0)),
        attribute("pneumatic_wheel", "pressure", unit="kPa", physical=(0, 1000), family="pressure"),
        attribute(
            "wheel_core", "window_width", physical=(1, 40), plausible=(5, 12), default=9.0, default_spread=(0.5, 1.0),
            family="hard_edge",
        ),
        attribute("wheel_core", "window_count", "count", "", physical=(0, 60), plausible=(5, 10), default=6.0),
        attribute("wheel_core", "window_form", "word", "", vocabulary=("round", "oval", "long_slot"), default="round"),
        attribute("wheel_core", "outline", "outline", "mm", physical=(0, 300), family="hard_edge"),
        attribute("wheel_core", "through", "word", "", vocabulary=("yes", "no")),
        attribute("bearing_seat", "bore", "designation", physical=(1, 60), plausible=(8, 12), default=8.0,
                  fit="iso492_bore", family="hard_edge"),
        attribute("bearing_seat", "shaft", "designation", physical=(1, 60), fit="g6", family="hard_edge"),
        attribute("bolt_hole", "thread", "word", "", vocabulary=("m4", "m5"), open_vocabulary=True),
        attribute("bolt_hole", "hole_diameter", physical=(0.5, 30), family="hard_edge"),
        attribute("cable", "core_area", unit="mm2", physical=(0.01, 200), family="rating"),
        attribute("cable", "wire_diameter", physical=(0.01, 20), family="rating"),
        attribute("cable", "volts", unit="V", physical=(0, 1000), family="volts"),
        attribute("cable", "resistance", unit="mohm", physical=(0, 1e6), family="rating"),
        attribute("cable", "torque", unit="N_m", physical=(0, 1000), family="rating"),
        attribute("cable", "force", unit="N", physical=(0, 1e6), family="rating"),
        attribute("cable", "slope", unit="percent", physical=(-100, 100), family="rating"),
        attribute("cable", "offset", physical=(-50, 50), family="hard_edge"),
        attribute("cable", "twist", unit="deg", physical=(-90, 90), family="angle"),
        attribute("cable", "unbounded", unit=""),
    )  # fmt: skip


# Half widths as in common practice (no source): what a caliper, a ruler, a data sheet and a photo are good for.
SPREADS = (
    Spread("caliper", "hard_edge", 0.05, 0.05, False, "practice"),
    Spread("ruler", "hard_edge", 0.5, 0.5, False, "practice"),
    Spread("data_sheet", "hard_edge", 0.1, 0.1, False, "practice"),
    Spread("photo", "hard_edge", 3.0, 3.0, True, "practice"),
    Spread("caliper", "soft_edge", 0.3, 0.2, False, "practice"),
    Spread("meter", "volts", 0.5, 0.5, True, "practice"),
    Spread("level", "angle", 0.5, 0.5, False, "practice"),
    Spread("guess", "rating", 50.0, 50.0, True, "practice"),
)
CORE = Interface(
    "core-six-20", "wheel_core", "six windows",
    {"window_width": Number(8.9, 9.0, 9.1, "mm", PRACTICE, "9.0 +-0.1")}, "s" * 64,
)  # fmt: skip
SEAT = Interface("seat-608", "bearing_seat", "seat for 608", {}, "t" * 64)


@pytest.fixture(scope="session")
def table() -> AttributeTable:
    classes = (
        PartClass("wheel", "Wheel", (), False, {"core": "wheel_core", "seat": "bearing_seat"}, PRACTICE),
        PartClass("pneumatic_wheel", "Wheel with tyre", ("wheel",), False, {}, PRACTICE),
        PartClass("plate", "Plate", (), False, {"front": "bolt_hole", "rear": "bolt_hole"}, PRACTICE),
        PartClass("cable", "Cable", (), False, {}, PRACTICE),
    )
    kinds = ("wheel_core", "bearing_seat", "bolt_hole")
    return AttributeTable(
        classes={one.id: one for one in classes},
        kinds={kind: InterfaceKind(kind, kind.replace("_", " ")) for kind in kinds},
        attributes={(one.owner, one.name): one for one in attributes()},
        spreads={(one.source_kind, one.family): one for one in SPREADS},
        sources={"practice": PRACTICE},
    )


@pytest.fixture(scope="session")
def fits() -> Fits:
    """ISO 492, normal class: bore over 2.5 to 18 mm 0/−8 µm. ISO 286-2 g6: over 6 to 10 mm −5/−14 µm."""
    return {
        "iso492_bore": (
            FitBand("iso492_bore", 2.5, 10.0, 0.008, 0.0),
            FitBand("iso492_bore", 10.0, 18.0, 0.008, 0.0),
            FitName("iso492_bore", "608", 8.0),  # ISO 15: 608 is 8 x 22 x 7
            FitName("iso492_bore", "6900", 10.0),  # ISO 15: 6900 is 10 x 22 x 6
        ),
        "g6": (FitBand("g6", 6.0, 10.0, 0.014, -0.005),),
    }


@pytest.fixture(scope="session")
def catalogue(table: AttributeTable, fits: Fits) -> SimpleNamespace:
    """What a front door hands to the part file reader: look-ups by id."""
    wheel = Part(
        "wheel-90", "wheel", "Wheel 90", {"outer_diameter": Number(89.5, 90, 90.5, "mm", PRACTICE, "90")},
        {"core": CORE, "seat": SEAT}, PRACTICE,
    )  # fmt: skip
    parts: Callable[[str], Part | None] = {"wheel-90": wheel}.get
    interfaces: Callable[[str], Interface | None] = {"core-six-20": CORE, "seat-608": SEAT}.get
    keywords = {
        "table": table, "fits": fits, "catalogue_part": parts, "catalogue_interface": interfaces,
        "part_ids_near": lambda typed: ("wheel-90",), "interface_ids": ("core-six-20", "seat-608"),
    }  # fmt: skip
    return SimpleNamespace(wheel=wheel, core=CORE, seat=SEAT, keywords=keywords)


@pytest.fixture(scope="session")
def caliper() -> Source:
    return own_source("caliper")
