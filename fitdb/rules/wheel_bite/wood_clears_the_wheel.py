"""At full lean the wood comes down over the wheel, and the steered wheel swings its corner under the wood. The gap is
looked for over the whole wheel and the whole edge, corners of cut-outs included, because that is where it bites first.

A wheel that stands outside the wood altogether has the axle itself as its nearest neighbour, and clears.
"""

from fitdb.formulas.deck_outline import half_widths
from fitdb.formulas.wheel_bite import projected_bite_clearance
from fitdb.model.reading import Outline
from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity, Shape
from fitdb.model.source import Source

DRAWING = Source("drawing", "caliper", "drawn for a worked example", "own reading")


def quantity(
    height: float,
    diameter: float,
    inner_face: float,
    outer_face: float,
    lean: float,
    steer: float,
    half_width: float,
    plan: Outline,
) -> float:
    """Least gap. An undrawn deck is straight-sided at its half width; faces that loose readings swap are put right."""
    edge = half_widths(plan.rings, plan.spread) if plan.rings else ((0.0, max(0.0, half_width)),)
    y_in = max(0.0, inner_face)
    y_out = max(outer_face, y_in + 0.1)
    lean, steer = min(max(lean, 0.0), 89.0), min(steer, 85.0)
    return projected_bite_clearance(height, diameter / 2.0, y_in, y_out, lean, steer, edge)


STRAIGHT = Outline((), (), 0.0, DRAWING)
CUT_OUT = Outline(
    (((0.0, 0.0), (0.0, 80.0), (55.0, 80.0), (55.0, 115.0), (300.0, 115.0), (300.0, 0.0)),), (), 0.0, DRAWING
)
WHEEL = {"wheel.inner_face": (90.0, 92.0, 94.0), "wheel.outer_face": (142.0, 144.0, 146.0)}

RULE = Rule(
    question="Does the leaned deck stay clear of the wheel at the rider's full lean?",
    needs=(
        "truck.deck_height",
        "wheel.outer_diameter",
        "wheel.inner_face",
        "wheel.outer_face",
        "truck.max_lean",
        "truck.steer",
        "deck.half_width_at_wheel",
        "deck.plan_outline",
    ),
    quantity=quantity,
    measures="least upright gap between the leaned deck and the steered wheel",
    formula=(
        "c = min over the wood above the wheel of (H − fall − z); fall = y·sin φ at the edge of the wood, "
        "y·tan φ where the wood hangs over the wheel's outer face"
    ),
    unit="mm",
    hard=AtLeast(Bound("wheel_bite.wood_clears_the_wheel.least", 0.0, "plane geometry")),
    comfort=AtLeast(Bound("wheel_bite.wood_clears_the_wheel.comfort", 3.0, "common practice, no source")),
    severity=Severity.INJURY,
    shape=Shape.ASKED,
    directions=(+1, -1, +1, -1, -1, 0, -1, -1),
    caution="Stand on each edge with your full weight before the first ride. If wheel and wood touch, do not ride.",
    remedy_hint=(
        "top mount: a riser; any mount: a smaller wheel, less lean, a cut-out. A riser on a drop-through deck makes it "
        "worse. With cut-outs at the wheels, draw the deck's plan"
    ),
    examples=(
        Example(
            "90 mm wheel, 74 mm of height, 13° of lean",
            {
                "truck.deck_height": (73.2, 74.0, 74.8),
                "wheel.outer_diameter": (89.5, 90.0, 90.5),
                **WHEEL,
                "truck.max_lean": (12.0, 13.0, 14.0),
                "truck.steer": (13.5, 15.0, 16.6),
                "deck.half_width_at_wheel": (111.0, 112.0, 113.0),
                "deck.plan_outline": STRAIGHT,
            },
            "holds",
            3.81,
        ),
        Example(
            "the same wheel without the riser, wider deck",
            {
                "truck.deck_height": 70.0,
                "wheel.outer_diameter": 90.0,
                **WHEEL,
                "truck.max_lean": 14.0,
                "truck.steer": 16.1,
                "deck.half_width_at_wheel": 120.0,
                "deck.plan_outline": STRAIGHT,
            },
            "fails",
            -4.03,
            two_numbers="45 mm of wheel under 70 mm of height: comparing two numbers leaves 25 mm",
        ),
        Example(
            "cut-out beside a 97 mm wheel: the steered corner comes under the wood behind it",
            {
                "truck.deck_height": 52.0,
                "wheel.outer_diameter": 97.0,
                "wheel.inner_face": 92.0,
                "wheel.outer_face": 144.0,
                "truck.max_lean": 18.0,
                "truck.steer": 20.2,
                "deck.half_width_at_wheel": 80.0,
                "deck.plan_outline": CUT_OUT,
            },
            "fails",
            None,
            two_numbers="the wheel begins at 92, the wood beside the axle ends at 80: comparing two numbers says clear",
        ),
        Example(
            "wheel wholly outside the wood, straight and steered",
            {
                "truck.deck_height": 80.0,
                "wheel.outer_diameter": 150.0,
                "wheel.inner_face": 139.0,
                "wheel.outer_face": 199.0,
                "truck.max_lean": 15.0,
                "truck.steer": 12.0,
                "deck.half_width_at_wheel": 115.0,
                "deck.plan_outline": STRAIGHT,
            },
            "holds",
            80.0,
        ),
        Example(
            "exactly on the limit: level, wheel top against the wood",
            {
                "truck.deck_height": 45.0,
                "wheel.outer_diameter": 90.0,
                "wheel.inner_face": 92.0,
                "wheel.outer_face": 144.0,
                "truck.max_lean": 0.0,
                "truck.steer": 0.0,
                "deck.half_width_at_wheel": 112.0,
                "deck.plan_outline": STRAIGHT,
            },
            "holds",
            0.0,
        ),
        Example(
            "full lean unread",
            {
                "truck.deck_height": 74.0,
                "wheel.outer_diameter": 90.0,
                "wheel.inner_face": 92.0,
                "wheel.outer_face": 144.0,
                "truck.steer": 15.0,
                "deck.half_width_at_wheel": 112.0,
                "deck.plan_outline": STRAIGHT,
            },
            "undecided",
        ),
    ),
)
