"""A soft deck tips both steering axes up under its rider, and the board turns in quicker than on the bench. Three
degrees are felt: at 50° they add a tenth to the steer.
"""

from fitdb.model.rule import AtMost, Bound, Example, Rule, Severity


def quantity(slope: float) -> float:
    return slope


RULE = Rule(
    question="Does the sagging deck tip the steering axes only a little?",
    needs=("deck.sag_slope",),
    quantity=quantity,
    measures="angle that the sagging deck adds to both steering axes",
    formula="s = 3δ/L",
    unit="deg",
    # The trade knows a caution here and no hard limit: `.none` tells it so.
    hard=AtMost(Bound("steering_under_load.sag_tips_the_axes_little.none", 20.0, "common practice, no source")),
    comfort=AtMost(Bound("steering_under_load.sag_tips_the_axes_little.comfort", 3.0, "common practice, no source")),
    severity=Severity.INJURY,
    caution=(
        "A softer deck changes how quickly the board steers. Start at walking pace; raise the speed in small steps on "
        "an empty, smooth place. If it starts to weave, do not brake hard: weight forward, ease off."
    ),
    remedy_hint="a stiffer deck, or a flatter plate or wedge in front",
    examples=(
        Example("stiff deck: 4 mm on 700", {"deck.sag_slope": (0.8, 1.0, 1.2)}, "holds", 19.0),
        Example(
            "soft deck: 15 mm on 760, a caution only",
            {"deck.sag_slope": (2.9, 3.4, 3.9)},
            "holds",
            16.6,
            two_numbers="the plates say 50° and 50°: comparing them tells nothing of the sag",
        ),
        Example("a deck that lies on the ground", {"deck.sag_slope": 21.0}, "fails", -1.0),
        Example("exactly on the limit", {"deck.sag_slope": 20.0}, "holds", 0.0),
        Example("stiffness unread", {}, "undecided"),
    ),
)
