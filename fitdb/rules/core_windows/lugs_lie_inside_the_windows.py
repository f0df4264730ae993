"""The whole outline of every lug has to lie in its window at one and the same turn of the pulley, corners included.

Wedge-shaped windows, rounded corners and odd spacings are not told by width and height. Where either side has been
drawn, the drawing is laid over the other side and turned until it fits best; where neither has, the sizes are drawn.
"""

from fitdb.formulas.lug_seats import lug_room, offset_rings
from fitdb.model.reading import Outline
from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity, Shape, Unsettled
from fitdb.model.source import Source

DRAWN = Source("worked_example", "caliper", "a worked example of the rulebook", "own reading")
UNDRAWN = Outline((), (), 0.0, DRAWN)
# One wedge-shaped window: 7 mm wide toward the axis, 11 mm outside; 9 mm where its middle is.
WEDGE = Outline((((14.5, -3.5), (26.5, -5.5), (26.5, 5.5), (14.5, 3.5)),), (), 0.0, DRAWN)
SIZES = {
    "wheel.window_count": 6,
    "wheel.window_inner_radius": 14.5,
    "wheel.window_outer_radius": 26.5,
    "wheel.window_width": 9.0,
    "wheel.window_corner_radius": 0.0,
    "wheel.outline": UNDRAWN,
    "pulley.lug_count": 6,
    "pulley.lug_inner_radius": 15.25,
    "pulley.lug_outer_radius": 25.75,
    "pulley.lug_width": 8.6,
    "pulley.lug_corner_radius": 0.0,
    "pulley.outline": UNDRAWN,
}


def quantity(
    window_count: int,
    window_inner_radius: float,
    window_outer_radius: float,
    window_width: float,
    window_corner_radius: float,
    windows: Outline,
    lug_count: int,
    lug_inner_radius: float,
    lug_outer_radius: float,
    lug_width: float,
    lug_corner_radius: float,
    lugs: Outline,
) -> float | Unsettled:
    room, bound = lug_room(
        (window_count, window_inner_radius, window_outer_radius, window_width, window_corner_radius),
        offset_rings(windows.rings, windows.spread),
        (lug_count, lug_inner_radius, lug_outer_radius, lug_width, lug_corner_radius),
        offset_rings(lugs.rings, lugs.spread),
    )
    if room < 0.0 <= bound and (windows.rings or lugs.rings):
        return Unsettled("the drawings touch so closely that no turn could be shown to fit or not to fit")
    return room


RULE = Rule(
    question="Does the whole outline of every lug lie in its window?",
    needs=(
        "wheel.window_count",
        "wheel.window_inner_radius",
        "wheel.window_outer_radius",
        "wheel.window_width",
        "wheel.window_corner_radius",
        "wheel.outline",
        "pulley.lug_count",
        "pulley.lug_inner_radius",
        "pulley.lug_outer_radius",
        "pulley.lug_width",
        "pulley.lug_corner_radius",
        "pulley.outline",
    ),
    quantity=quantity,
    measures=(
        "least distance from any lug to the edge of its window, at the best turn; negative: how far one stands out"
    ),
    formula="max over turns of min over lugs of distance(outline of lug, edge of window)",
    unit="mm",
    hard=AtLeast(Bound("core_windows.lugs_lie_inside_the_windows.least", 0.0, "plane geometry")),
    severity=Severity.DAMAGE,
    shape=Shape.ASKED,
    directions=(0, -1, +1, +1, -1, +1, 0, +1, -1, -1, +1, -1),
    caution="File the lugs, never the core; a lug that is hammered in splits the core later.",
    examples=(
        Example("8.6 mm lugs in 9.0 mm windows", SIZES, "holds", 0.2),
        Example("a lug as wide as its window", {**SIZES, "pulley.lug_width": 9.0}, "holds", 0.0),
        Example("lug read by eye", {**SIZES, "pulley.lug_width": (8.2, 8.8, 9.4)}, "undecided", 0.1),
        Example("a sharp lug meets rounded corners", {**SIZES, "wheel.window_corner_radius": 3.5}, "fails", -0.796),
        Example(
            "the same lugs in wedge-shaped windows",
            {**SIZES, "wheel.outline": WEDGE, "pulley.lug_count": 1},
            "fails",
            -0.66,
            two_numbers="8.6 is less than 9.0, the width in the middle of the wedge: comparing two numbers says yes",
        ),
        Example("lug width unread", {need: SIZES[need] for need in SIZES if need != "pulley.lug_width"}, "undecided"),
    ),
)
