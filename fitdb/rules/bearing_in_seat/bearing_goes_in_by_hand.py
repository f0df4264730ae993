"""A bearing forced into a tight seat is squeezed between its rings: it drags, heats up and dies early.

Plastic gives a little, alloy does not, so an alloy seat may be tighter by no more than a hundredth.
"""

from fitdb.model.rule import AtMost, Bound, Constant, Example, Published, Rule, Severity


def quantity(outer_diameter: float, seat_diameter: float, seat_material: str, alloy_stiffness: float) -> float:
    return outer_diameter - seat_diameter + (alloy_stiffness if seat_material == "alloy" else 0.0)


RULE = Rule(
    question="Does the bearing go into its seat by hand?",
    needs=("bearing.outer_diameter", "holder.seat_diameter", "holder.seat_material"),
    quantity=quantity,
    measures="tightness of the bearing in its seat; in alloy 0.02 counts on top",
    formula="D_bearing − D_seat (+ 0.02 in alloy)",
    unit="mm",
    hard=AtMost(Bound("bearing_in_seat.bearing_goes_in_by_hand.most", 0.03, "common practice, no source")),
    severity=Severity.DAMAGE,
    constants=(Constant("alloy_stiffness", 0.02, "mm", "common practice, no source"),),
    published=(Published("outer ring over 18 to 30 mm: 0 / −0.009 mm", "ISO 492, normal class"),),
    examples=(
        Example(
            "22 mm bearing, moulded seat",
            {
                "bearing.outer_diameter": (21.991, 22.0, 22.0),
                "holder.seat_diameter": (21.97, 22.0, 22.0),
                "holder.seat_material": "plastic",
            },
            "holds",
            0.03,
        ),
        Example(
            "exactly on the limit",
            {"bearing.outer_diameter": 22.0, "holder.seat_diameter": 21.97, "holder.seat_material": "plastic"},
            "holds",
            0.0,
        ),
        Example(
            "the same seat in alloy",
            {"bearing.outer_diameter": 22.0, "holder.seat_diameter": 21.97, "holder.seat_material": "alloy"},
            "fails",
            -0.02,
            two_numbers="22.00 and 21.97: within what a caliper can tell",
        ),
        Example(
            "28 mm bearing, 22 mm seat",
            {"bearing.outer_diameter": 28.0, "holder.seat_diameter": 22.0, "holder.seat_material": "plastic"},
            "fails",
            -5.97,
        ),
        Example(
            "material not looked at", {"bearing.outer_diameter": 22.0, "holder.seat_diameter": 21.985}, "undecided"
        ),
    ),
)
