"""Every bolt must find a hole at the same turn of the pulley. Five bolts do not go into six holes."""

from fitdb.model.rule import AtMost, Bound, Example, Rule, Severity, Shape


def quantity(holes: int, bolts: int) -> float:
    """Holes left over when the bolts are dealt out evenly; every bolt is left over where there is no hole at all."""
    return float(holes % bolts) if holes else float(bolts)


RULE = Rule(
    question="Do the bolts find a hole each?",
    needs=("wheel.core_bolt_count", "pulley.bolt_count"),
    quantity=quantity,
    measures="holes left over when the bolts are spread evenly over them",
    formula="N_holes mod n_bolts",
    unit="",
    hard=AtMost(Bound("core_windows.bolts_index.most", 0, "common practice, no source")),
    severity=Severity.INJURY,
    shape=Shape.STEPPED,
    caution="A core that is drilled cannot be undone, and the motor is the brake: drill with a jig or not at all.",
    examples=(
        Example("five bolts, five holes", {"wheel.core_bolt_count": 5, "pulley.bolt_count": 5}, "holds", 0),
        Example("three bolts, six holes", {"wheel.core_bolt_count": 6, "pulley.bolt_count": 3}, "holds", 0),
        Example(
            "four bolts, six holes",
            {"wheel.core_bolt_count": 6, "pulley.bolt_count": 4},
            "fails",
            -2,
            two_numbers="4 bolts are no more than 6 holes: comparing two counts says yes",
        ),
        Example("a core without holes", {"wheel.core_bolt_count": 0, "pulley.bolt_count": 5}, "fails", -5),
        Example("holes not counted", {"pulley.bolt_count": 5}, "undecided"),
    ),
)
