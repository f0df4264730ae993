"""Where both patterns are drawn, they are laid on each other hole by hole: uneven faces, mounts with two circles and
slots that run askew are judged as they are. Where it holds, counts and circles need not be asked.
"""

from fitdb.formulas.hole_misfit import pattern_misfit
from fitdb.formulas.motor_faces import thread_diameter
from fitdb.model.reading import Outline
from fitdb.model.rule import AtLeast, Bound, Constant, Example, Published, Rule, Severity, Shape, Unsettled
from fitdb.model.source import Source

DRAWING = Source("drawing", "caliper", "drawn for a worked example", "own reading")


def quantity(face: Outline, mount: Outline, thread: str, screws: float) -> float | Unsettled:
    """Play left at the tightest screw. Only the slots have play: the other side is threaded."""
    if not (face.holes and mount.holes):
        return Unsettled("one of the two patterns has no holes drawn")
    narrowest = min(hole[2] for hole in mount.holes)
    play = (narrowest - thread_diameter(thread)) / 2.0 + face.spread + mount.spread
    least, reached = pattern_misfit(face.holes, mount.holes, False, int(screws))
    # Between what a motion reaches and what none undercuts there is no answer but to put the parts together.
    if play - reached < 0.0 <= play - least:
        return Unsettled("the slots may just line up: lay the motor on the mount and try the screws")
    return play - reached


def _circle(count: int, diameter: float, hole: float, slot: float = 0.0, spread: float = 0.0) -> Outline:
    radius = diameter / 2.0
    middles = {4: ((1, 0), (0, 1), (-1, 0), (0, -1)), 3: ((1, 0), (-0.5, 0.8660254), (-0.5, -0.8660254))}[count]
    return Outline((), tuple((radius * x, radius * y, hole, slot, 45.0) for x, y in middles), spread, DRAWING)


RULE = Rule(
    question="Do the drawn holes of the motor meet the drawn slots of the mount?",
    needs=("motor.outline", "motor_mount.outline", "motor.thread"),
    quantity=quantity,
    measures="play left at the tightest of four screws, motor pushed to its best place",
    formula="m = (w_slot − d)/2 − misfit of the two patterns",
    unit="mm",
    hard=AtLeast(Bound("motor_face.drawn_holes_line_up.least", 0.0, "ASME Y14.5-2009, appendix B")),
    severity=Severity.DAMAGE,
    shape=Shape.ASKED,
    directions=(+1, +1, 0),
    constants=(Constant("screws", 4.0, "1", "common practice, no source"),),
    published=(
        Published("holes of H over threads let the pattern be off place by (H − F)/2 each", "ASME Y14.5-2009, app. B"),
    ),
    excused_by="motor_face.screws_line_up",
    remedy_hint="a face plate from one pattern to the other",
    examples=(
        Example(
            "four holes on 44 mm, four parallel slots",
            {
                "motor.outline": _circle(4, 44.0, 4.0, 0.0, 0.05),
                "motor_mount.outline": _circle(4, 44.0, 4.5, 10.0, 0.05),
                "motor.thread": "m4",
            },
            "holds",
            0.25,
        ),
        Example(
            "exactly on the limit: a slot as wide as the screw",
            {
                "motor.outline": _circle(4, 44.0, 4.0),
                "motor_mount.outline": _circle(4, 44.0, 4.0, 10.0),
                "motor.thread": "m4",
            },
            "holds",
            0.0,
        ),
        Example(
            "three holes against four on one circle",
            {
                "motor.outline": _circle(3, 44.0, 4.0),
                "motor_mount.outline": _circle(4, 44.0, 4.5),
                "motor.thread": "m4",
            },
            "fails",
            two_numbers="44 mm and 44 mm: comparing the circles says yes",
        ),
        Example("mount not drawn", {"motor.outline": _circle(4, 44.0, 4.0), "motor.thread": "m4"}, "undecided"),
    ),
)
