"""Spacers and rings have to slide on by hand. One whose bore is smaller than the axle ends the build on the bench, and
is not to be drilled in the hand or hammered on. One with much air hangs to one side, presses beside the inner ring of
the bearing, and rubs its seal.
"""

from fitdb.model.rule import AtLeast, AtMost, Bound, Example, Rule, Severity


def quantity(bore: float, axle_diameter: float) -> float:
    return bore - axle_diameter


RULE = Rule(
    question="Does the spacer or ring slide onto the axle, without much air?",
    needs=("ring.bore", "hanger.axle_diameter"),
    quantity=quantity,
    measures="bore of the spacer or ring less diameter of what it slides on",
    formula="d_bore − d_axle",
    unit="mm",
    hard=AtLeast(Bound("ring_on_axle.ring_slides_on.least", 0.0, "common practice, no source")),
    comfort=AtMost(Bound("ring_on_axle.ring_slides_on.comfort", 0.3, "common practice, no source")),
    severity=Severity.DAMAGE,
    remedy_hint="a spacer or ring made for this axle",
    examples=(
        Example(
            "8.2 mm spacer on an 8 mm axle",
            {"ring.bore": (8.1, 8.2, 8.3), "hanger.axle_diameter": (7.964, 8.0, 8.0)},
            "holds",
            0.2,
        ),
        Example(
            "8.2 mm spacer on a 10 mm axle",
            {"ring.bore": (8.1, 8.2, 8.3), "hanger.axle_diameter": (9.964, 10.0, 10.0)},
            "fails",
            -1.8,
        ),
        Example(
            "10.2 mm ring on an 8 mm axle: goes on, with a word of caution",
            {"ring.bore": (10.1, 10.2, 10.3), "hanger.axle_diameter": (7.964, 8.0, 8.0)},
            "holds",
            2.2,
        ),
        Example("exactly on the limit", {"ring.bore": 8.0, "hanger.axle_diameter": 8.0}, "holds", 0.0),
        Example(
            "bore read as 8.0 with a caliper, 8 mm axle",
            {"ring.bore": (7.95, 8.0, 8.05), "hanger.axle_diameter": (7.964, 8.0, 8.0)},
            "undecided",
            0.0,
            two_numbers="8.0 is 8.0: comparing two numbers says yes",
        ),
        Example("axle unread", {"ring.bore": 8.2}, "undecided"),
    ),
)
