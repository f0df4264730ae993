"""In a turn the two wheels of one side carry nearly everything, and a bump more than doubles it. A ball bearing that is
loaded beyond its static rating keeps the dents; it rumbles, and in the end it seizes and stops the wheel.
"""

from fitdb.formulas.ride import static_safety
from fitdb.model.rule import AtLeast, Bound, Constant, Example, Published, Rule, Severity


def quantity(rating: float, rider: float, board: float, sharing: float, shock: float) -> float:
    return static_safety(rating, rider + board, sharing, shock)


RULE = Rule(
    question="Do the wheel bearings bear rider and board on a bump?",
    needs=("bearing.static_rating", "rider.mass", "rider.board_mass"),
    quantity=quantity,
    measures="static rating over the load of one bearing, one side of the board carrying all, on a bump",
    formula="s₀ = C₀·4/(2.5·m·g)",
    unit="",
    hard=AtLeast(Bound("bearing_load.bearing_bears_a_bump.least", 1.0, "ISO 76, from memory")),
    comfort=AtLeast(Bound("bearing_load.bearing_bears_a_bump.comfort", 1.5, "ISO 76, from memory")),
    severity=Severity.INJURY,
    published=(Published("static safety 1 for ordinary, 1.5 to 2 for shock loads", "ISO 76, from memory"),),
    constants=(
        Constant("sharing", 4.0, "1", "common practice, no source"),
        Constant("shock", 2.5, "1", "common practice, no source"),
    ),
    caution="A wheel that runs rough or hot has a bearing that is breaking. Do not ride on it; change both.",
    remedy_hint="bearings of a larger static rating in the same seat; a thin one bears about a fifth less",
    examples=(
        Example(
            "1.37 kN under 110 kg",
            {"bearing.static_rating": 1.37, "rider.mass": (98.0, 100.0, 102.0), "rider.board_mass": 10.0},
            "holds",
            1.032,
        ),
        Example(
            "0.29 kN under 90 kg",
            {"bearing.static_rating": 0.29, "rider.mass": 80.0, "rider.board_mass": 10.0},
            "fails",
            -0.474,
            two_numbers="0.29 kN against the 110 N of an eighth of the mass: comparing two numbers says yes",
        ),
        Example(
            "exactly on the limit",
            {"bearing.static_rating": 0.612915625, "rider.mass": 90.0, "rider.board_mass": 10.0},
            "holds",
            0.0,
        ),
        Example("rating unread", {"rider.mass": 80.0, "rider.board_mass": 10.0}, "undecided"),
    ),
)
