"""A hanger that is not round has more than one size, and each of them has to pass the bore at once, turned to its best
place. A D that is right across may be too high; two house shapes of one width may have different shoulders.
"""

from fitdb.formulas.clamp_outlines import even_gap
from fitdb.model.reading import Outline
from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity, Shape, Unsettled
from fitdb.model.source import Source

DRAWING = Source("drawing", "caliper", "drawn for a worked example", "own reading")
UNDRAWN = Outline((), (), 0.0, DRAWING)


def quantity(
    profile_form: str,
    profile_size: float,
    profile_other_size: float,
    profile: Outline,
    clamp_form: str,
    bore_size: float,
    bore_other_size: float,
    bore: Outline,
) -> float | Unsettled:
    """The even gap on one side, at the outlines moved outward by the doubt of the drawings."""
    gap = even_gap(
        profile_form,
        profile_size,
        profile_other_size,
        profile.rings,
        clamp_form,
        bore_size,
        bore_other_size,
        bore.rings,
    )
    if gap is None:
        return Unsettled("form and sizes do not tell it: draw profile and bore on squared paper, or try them")
    return gap - profile.spread + bore.spread


def _house(bottom: float, height: float, top: float, spread: float = 0.0) -> Outline:
    corners = ((-bottom / 2, -height / 2), (bottom / 2, -height / 2), (top / 2, height / 2), (-top / 2, height / 2))
    return Outline((corners,), (), spread, DRAWING)


RULE = Rule(
    question="Does the whole profile go into the bore, not its width alone?",
    needs=(
        "hanger.form",
        "hanger.size_a",
        "hanger.size_b",
        "hanger.profile_outline",
        "motor_mount.clamp_form",
        "motor_mount.clamp_bore",
        "motor_mount.clamp_bore_b",
        "motor_mount.bore_outline",
    ),
    quantity=quantity,
    measures="widest even gap round the profile in the bore, one side, turned and pushed to the best place",
    formula="g = least distance of profile and bore, greatest over shifts and turns up to 15°",
    unit="mm",
    hard=AtLeast(Bound("clamp_profile.profile_goes_in_all_round.least", 0.0, "common practice, no source")),
    severity=Severity.INJURY,
    shape=Shape.ASKED,
    directions=(0, -1, -1, -1, 0, +1, +1, +1),
    caution="Do not file a cast hanger to fit a clamp: it is as thick as it has to be.",
    remedy_hint="a clamp made for this hanger, or a shell made to both drawings",
    examples=(
        Example(
            "a D of 30 mm and 26 mm height in a bore 0.3 mm larger both ways",
            {
                "hanger.form": "d_shape",
                "hanger.size_a": (29.95, 30.0, 30.05),
                "hanger.size_b": (25.95, 26.0, 26.05),
                "hanger.profile_outline": UNDRAWN,
                "motor_mount.clamp_form": "d_shape",
                "motor_mount.clamp_bore": 30.3,
                "motor_mount.clamp_bore_b": 26.3,
                "motor_mount.bore_outline": UNDRAWN,
            },
            "holds",
            0.15,
        ),
        Example(
            "a D of the right width, 1 mm too high",
            {
                "hanger.form": "d_shape",
                "hanger.size_a": 30.0,
                "hanger.size_b": 27.0,
                "hanger.profile_outline": UNDRAWN,
                "motor_mount.clamp_form": "d_shape",
                "motor_mount.clamp_bore": 30.3,
                "motor_mount.clamp_bore_b": 26.0,
                "motor_mount.bore_outline": UNDRAWN,
            },
            "fails",
            two_numbers="30.0 is less than 30.3: comparing two diameters says yes",
        ),
        Example(
            "two house shapes of one bottom width, the hanger with wider shoulders",
            {
                "hanger.form": "trapezoid",
                "hanger.size_a": 30.0,
                "hanger.size_b": 26.0,
                "hanger.profile_outline": _house(30.0, 26.0, 22.0, 0.1),
                "motor_mount.clamp_form": "trapezoid",
                "motor_mount.clamp_bore": 30.4,
                "motor_mount.clamp_bore_b": 26.4,
                "motor_mount.bore_outline": _house(30.4, 26.4, 18.0, 0.1),
            },
            "fails",
            two_numbers="30 and 26 are less than 30.4 and 26.4: comparing the sizes says yes",
        ),
        Example(
            "a hexagon of 32.0 mm in a bore of 32.0 mm, exactly on the limit",
            {
                "hanger.form": "hexagon",
                "hanger.size_a": 32.0,
                "hanger.size_b": 32.0,
                "hanger.profile_outline": UNDRAWN,
                "motor_mount.clamp_form": "hexagon",
                "motor_mount.clamp_bore": 32.0,
                "motor_mount.clamp_bore_b": 32.0,
                "motor_mount.bore_outline": UNDRAWN,
            },
            "holds",
            0.0,
        ),
        Example(
            "house shapes that nobody drew",
            {
                "hanger.form": "trapezoid",
                "hanger.size_a": 30.0,
                "hanger.size_b": 26.0,
                "hanger.profile_outline": UNDRAWN,
                "motor_mount.clamp_form": "trapezoid",
                "motor_mount.clamp_bore": 30.4,
                "motor_mount.clamp_bore_b": 26.4,
                "motor_mount.bore_outline": UNDRAWN,
            },
            "undecided",
        ),
        Example(
            "clamp bore unread",
            {
                "hanger.form": "round",
                "hanger.size_a": 31.5,
                "hanger.size_b": 31.5,
                "hanger.profile_outline": UNDRAWN,
                "motor_mount.clamp_form": "round",
                "motor_mount.clamp_bore_b": 31.8,
                "motor_mount.bore_outline": UNDRAWN,
            },
            "undecided",
        ),
    ),
)
