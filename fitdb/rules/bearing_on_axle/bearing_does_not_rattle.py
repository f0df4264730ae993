"""A bearing with much air on the axle knocks, wears the axle and lets the wheel tilt until the nut works loose."""

from fitdb.model.rule import AtMost, Bound, Example, Published, Rule, Severity


def quantity(bore: float, axle_diameter: float) -> float:
    return bore - axle_diameter


RULE = Rule(
    question="Does the bearing sit on the axle without rattle?",
    needs=("bearing.bore", "hanger.axle_diameter"),
    quantity=quantity,
    measures="bore of the bearing less diameter of the axle",
    formula="d_bore − d_axle",
    unit="mm",
    hard=AtMost(Bound("bearing_on_axle.bearing_does_not_rattle.most", 0.1, "common practice, no source")),
    severity=Severity.INJURY,
    published=(Published("bore of a normal bearing over 2.5 to 18 mm: 0 / −0.008 mm", "ISO 492, normal class"),),
    caution=(
        "Bridge a larger bore with a hard sleeve as long as the bearing, or take the right bearing; never "
        "with tape or foil."
    ),
    examples=(
        Example(
            "8 mm bearing on a 5/16 in axle",
            {"bearing.bore": (7.992, 8.0, 8.0), "hanger.axle_diameter": (7.9195, 7.9375, 7.9375)},
            "holds",
            0.038,
        ),
        Example("exactly on the limit", {"bearing.bore": 8.0, "hanger.axle_diameter": 7.9}, "holds", 0.0),
        Example(
            "10 mm bearing on an 8 mm axle",
            {"bearing.bore": (9.992, 10.0, 10.0), "hanger.axle_diameter": (7.964, 8.0, 8.0)},
            "fails",
            -1.9,
            two_numbers="an 8 mm axle goes into a 10 mm bore: comparing two numbers says yes",
        ),
        Example("axle unread", {"bearing.bore": 8.0}, "undecided"),
    ),
)
