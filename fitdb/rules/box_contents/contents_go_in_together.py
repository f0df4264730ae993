"""Everything in the box has to find its place at once, each with soft packing round it and room for its leads to bend.
Cells must not be clamped: a pack that has to be pressed in is too large, whatever its volume says.
"""

from fitdb.formulas.box_contents import Room, packing_growth
from fitdb.model.reading import Outline
from fitdb.model.rule import AtLeast, Bound, Constant, Example, Rule, Severity, Shape, Unsettled
from fitdb.model.source import Source

DRAWING = Source("drawing", "caliper", "drawn for a worked example", "own reading")


def quantity(
    plan: Outline,
    length: float,
    width: float,
    height: float,
    corner_radius: float,
    conductive: str,
    pads: tuple[float, ...],
    lengths: tuple[float, ...],
    widths: tuple[float, ...],
    heights: tuple[float, ...],
    may_stand: tuple[str, ...],
    packing: float,
    lead_room: float,
    insulation: float,
) -> float | Unsettled:
    wall = insulation if conductive == "yes" else 0.0
    left = height - 2.0 * wall - sum(pads)
    ring = plan.rings[0] if plan.rings else None
    room = Room(length - 2.0 * wall, width - 2.0 * wall, left, corner_radius, ring, plan.spread - wall)
    growth = packing_growth(room, lengths, widths, heights, may_stand, packing, lead_room)
    if growth is None:
        return Unsettled("neither an arrangement nor a proof against one was found: lay the contents in as cardboard")
    return growth


UNDRAWN = Outline((), (), 0.0, DRAWING)
NOTCHED = Outline(
    (((0.0, 0.0), (450.0, 0.0), (450.0, 130.0), (390.0, 130.0), (390.0, 170.0), (0.0, 170.0)),), (), 0.0, DRAWING
)
PACK = {
    "content*.body_length": (408.0,),
    "content*.body_width": (150.0,),
    "content*.body_height": (27.0,),
    "content*.may_stand": ("no",),
}
PACK_AND_CONTROLLER = {
    "content*.body_length": ((407.5, 408.0, 408.5), 122.0),
    "content*.body_width": ((149.5, 150.0, 150.5), 70.0),
    "content*.body_height": ((26.5, 27.0, 27.5), 22.0),
    "content*.may_stand": ("no", "no"),
}
CAVITY = {
    "enclosure.outline": UNDRAWN,
    "enclosure.corner_radius": 4.0,
    "enclosure.cavity_width": (169.5, 170.0, 170.5),
    "enclosure.inner_height": (44.5, 45.0, 45.5),
    "enclosure.conductive": "no",
}

RULE = Rule(
    question="Do all contents go into the cavity together?",
    needs=(
        "enclosure.outline",
        "enclosure.cavity_length",
        "enclosure.cavity_width",
        "enclosure.inner_height",
        "enclosure.corner_radius",
        "enclosure.conductive",
        "thermal_pad*.thickness",
        "content*.body_length",
        "content*.body_width",
        "content*.body_height",
        "content*.may_stand",
    ),
    quantity=quantity,
    measures="largest growth of every content, in every direction, with which all still go in; never told below −50",
    formula="m = max g: bodies + g + 2·packing + lead room pack into the cavity",
    unit="mm",
    hard=AtLeast(Bound("box_contents.contents_go_in_together.least", 0.0, "common practice, no source")),
    comfort=AtLeast(Bound("box_contents.contents_go_in_together.comfort", 0.5, "common practice, no source")),
    severity=Severity.FIRE,
    shape=Shape.ASKED,
    directions=(+1, +1, +1, +1, -1, 0, -1, -1, -1, -1, 0),
    constants=(
        Constant("packing", 1.5, "mm", "common practice, no source"),
        Constant("lead_room", 5.0, "mm", "common practice, no source"),
        Constant("insulation", 2.25, "mm", "common practice, no source: fibre paper and foam on a conducting wall"),
    ),
    caution=(
        "No clamping load on cells. A lithium pack cannot be switched off: treat its terminals as live at all "
        "times, take off rings and watch, cover every open terminal. A wall that conducts: insulate it all over "
        "and measure before joining the pack."
    ),
    remedy_hint="another layout, a spacer frame, or a smaller pack",
    examples=(
        Example(
            "controller across behind the pack: 500 − 416 − 73 leaves 11 mm for two",
            {**CAVITY, "enclosure.cavity_length": (499.5, 500.0, 500.5), **PACK_AND_CONTROLLER},
            "holds",
            5.0,
        ),
        Example(
            "cavity 60 mm longer than the pack; one on the other would take 55 of 45 mm",
            {**CAVITY, "enclosure.cavity_length": (469.5, 470.0, 470.5), **PACK_AND_CONTROLLER},
            "fails",
            -5.0,
            two_numbers="3.6 litres of cavity for 1.8 litres of contents, and each goes in alone: volumes say yes",
        ),
        Example(
            "exactly on the limit",
            {
                "enclosure.outline": UNDRAWN,
                "enclosure.cavity_length": 208.0,
                "enclosure.cavity_width": 103.0,
                "enclosure.inner_height": 43.0,
                "enclosure.corner_radius": 0.0,
                "enclosure.conductive": "no",
                "content*.body_length": (200.0,),
                "content*.body_width": (100.0,),
                "content*.body_height": (40.0,),
                "content*.may_stand": ("no",),
            },
            "holds",
            0.0,
        ),
        Example(
            "wall may conduct, and then insulation takes the room",
            {
                "enclosure.outline": UNDRAWN,
                "enclosure.cavity_length": 210.0,
                "enclosure.cavity_width": 105.0,
                "enclosure.inner_height": 45.0,
                "enclosure.corner_radius": 0.0,
                "enclosure.conductive": "yes|no",
                "content*.body_length": (200.0,),
                "content*.body_width": (100.0,),
                "content*.body_height": (40.0,),
                "content*.may_stand": ("no",),
            },
            "undecided",
        ),
        Example(
            "drawn cavity with a corner of 60 × 40 mm taken by the switch",
            {
                "enclosure.outline": NOTCHED,
                "enclosure.cavity_length": 450.0,
                "enclosure.cavity_width": 170.0,
                "enclosure.inner_height": 45.0,
                "enclosure.corner_radius": 0.0,
                "enclosure.conductive": "no",
                **PACK,
            },
            "fails",
            -30.0,
            two_numbers="450 is more than 416, 170 more than 153: length and width say yes",
        ),
        Example("cavity length unread", {**CAVITY, **PACK_AND_CONTROLLER}, "undecided"),
    ),
)
