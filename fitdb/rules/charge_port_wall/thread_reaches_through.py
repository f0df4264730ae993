"""The nut behind the wall wants three millimetres of thread. A port made for sheet metal does not reach through a
wall of printed plastic.
"""

from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity


def quantity(neck_length: float, wall_thickness: float) -> float:
    return neck_length - wall_thickness


RULE = Rule(
    question="Is there thread left for the nut behind the wall?",
    needs=("charge_port.neck_length", "enclosure.wall_thickness"),
    quantity=quantity,
    measures="thread behind the wall: length of the neck less thickness of the wall",
    formula="t = l_neck − t_wall",
    unit="mm",
    hard=AtLeast(Bound("charge_port_wall.thread_reaches_through.least", 3.0, "common practice, no source")),
    severity=Severity.NUISANCE,
    remedy_hint="another port, or a pocket milled into the wall from inside",
    examples=(
        Example(
            "9 mm neck, 3 mm wall",
            {"charge_port.neck_length": (8.9, 9.0, 9.1), "enclosure.wall_thickness": (2.5, 3.0, 3.5)},
            "holds",
            3.0,
        ),
        Example(
            "6 mm neck, 5 mm wall",
            {"charge_port.neck_length": (5.9, 6.0, 6.1), "enclosure.wall_thickness": (4.5, 5.0, 5.5)},
            "fails",
            -2.0,
            two_numbers="6 mm > 5 mm: the neck comes through, says a comparison of two numbers",
        ),
        Example("exactly on the limit", {"charge_port.neck_length": 6.0, "enclosure.wall_thickness": 3.0}, "holds", 0),
        Example("wall unread", {"charge_port.neck_length": 9.0}, "undecided"),
    ),
)
