"""An outer ring that can turn in its seat grinds the seat larger and walks out of the wheel.

A seat may be larger than its bearing by no more than the bearing is made under its size; an alloy seat with a
retainer by a hundredth more. Retaining compound is for metal alone, and tape or foil is no cure.
"""

from fitdb.model.rule import AtMost, Bound, Constant, Example, Published, Rule, Severity


def quantity(seat_diameter: float, outer_diameter: float, seat_material: str, retained_looseness: float) -> float:
    return seat_diameter - outer_diameter - (retained_looseness if seat_material == "alloy" else 0.0)


RULE = Rule(
    question="Does the seat hold the bearing?",
    needs=("holder.seat_diameter", "bearing.outer_diameter", "holder.seat_material"),
    quantity=quantity,
    measures="looseness of the bearing in its seat, less what a retained alloy seat may have",
    formula="D_seat − D_bearing (− 0.01 in alloy)",
    unit="mm",
    hard=AtMost(Bound("bearing_in_seat.bearing_stays_in_its_seat.most", 0.01, "common practice, no source")),
    severity=Severity.DAMAGE,
    constants=(Constant("retained_looseness", 0.01, "mm", "common practice, no source"),),
    published=(Published("outer ring over 18 to 30 mm: 0 / −0.009 mm", "ISO 492, normal class"),),
    caution="Retaining compound holds in metal only; in a plastic core a loose seat means another wheel.",
    examples=(
        Example(
            "22 mm bearing, moulded seat",
            {
                "holder.seat_diameter": (21.97, 22.0, 22.0),
                "bearing.outer_diameter": (21.991, 22.0, 22.0),
                "holder.seat_material": "plastic",
            },
            "holds",
            0.01,
        ),
        Example(
            "exactly on the limit",
            {"holder.seat_diameter": 22.01, "bearing.outer_diameter": 22.0, "holder.seat_material": "plastic"},
            "holds",
            0.0,
        ),
        Example(
            "22 mm bearing in a seat worn to 22.05",
            {
                "holder.seat_diameter": 22.05,
                "bearing.outer_diameter": (21.991, 22.0, 22.0),
                "holder.seat_material": "plastic",
            },
            "fails",
            -0.04,
            two_numbers="22 and 22.05: within what a caliper can tell",
        ),
        Example(
            "22 mm bearing in a 28 mm seat",
            {"holder.seat_diameter": 28.0, "bearing.outer_diameter": 22.0, "holder.seat_material": "alloy"},
            "fails",
            -5.98,
            two_numbers="22 goes into 28: comparing two numbers says yes",
        ),
        Example(
            "seat read with a caliper",
            {
                "holder.seat_diameter": (21.95, 22.0, 22.05),
                "bearing.outer_diameter": (21.991, 22.0, 22.0),
                "holder.seat_material": "plastic",
            },
            "undecided",
            0.01,
        ),
        Example("seat unread", {"bearing.outer_diameter": 22.0, "holder.seat_material": "plastic"}, "undecided"),
    ),
)
