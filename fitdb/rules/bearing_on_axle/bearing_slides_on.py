"""A bearing that has to be hammered onto the axle is dented before the first ride, and runs rough until it seizes.

A bearing ring is made up to 8 thousandths under its size, so a bore and an axle of one name may touch a little.
"""

from fitdb.model.rule import AtLeast, Bound, Example, Published, Rule, Severity


def quantity(bore: float, axle_diameter: float) -> float:
    return bore - axle_diameter


RULE = Rule(
    question="Does the bearing slide onto the axle by hand?",
    needs=("bearing.bore", "hanger.axle_diameter"),
    quantity=quantity,
    measures="bore of the bearing less diameter of the axle",
    formula="d_bore − d_axle",
    unit="mm",
    hard=AtLeast(Bound("bearing_on_axle.bearing_slides_on.least", -0.02, "common practice, no source")),
    severity=Severity.INJURY,
    published=(Published("bore of a normal bearing over 2.5 to 18 mm: 0 / −0.008 mm", "ISO 492, normal class"),),
    caution="Never drill a bearing or a wheel to fit: take the bearing that has the axle's bore.",
    examples=(
        Example(
            "608 on an 8 mm axle",
            {"bearing.bore": (7.992, 8.0, 8.0), "hanger.axle_diameter": (7.964, 8.0, 8.0)},
            "holds",
            0.02,
        ),
        Example("exactly on the limit", {"bearing.bore": 7.98, "hanger.axle_diameter": 8.0}, "holds", 0.0),
        Example(
            "8 mm bearing on a 10 mm axle",
            {"bearing.bore": (7.992, 8.0, 8.0), "hanger.axle_diameter": (9.964, 10.0, 10.0)},
            "fails",
            -1.98,
        ),
        Example(
            "8 mm bearing on an axle read as 8.0 with a caliper",
            {"bearing.bore": (7.992, 8.0, 8.0), "hanger.axle_diameter": (7.95, 8.0, 8.05)},
            "undecided",
            0.02,
            two_numbers="8.0 is 8.0: comparing two numbers says yes",
        ),
        Example("axle unread", {"bearing.bore": 8.0}, "undecided"),
    ),
)
