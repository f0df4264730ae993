"""Bolts that end in plastic pull through it. A plate or sleeves on the far side spread the load."""

from fitdb.model.rule import Example, OneOf, Rule, Severity


def quantity(far_side_clamp: str) -> str:
    return far_side_clamp


RULE = Rule(
    question="Does a plate or do sleeves back the bolts on the far side of the core?",
    needs=("pulley.far_side_clamp",),
    quantity=quantity,
    measures="whether the bolts are backed",
    formula="word",
    unit="",
    hard=OneOf("core_windows.bolts_are_backed.words", ("yes",), "common practice, no source"),
    severity=Severity.INJURY,
    two_numbers_suffice="a word: there is nothing to compare",
    caution="Nuts straight on plastic come loose: check them after 1, 10 and 100 km.",
    examples=(
        Example("with a ring plate", {"pulley.far_side_clamp": "yes"}, "holds"),
        Example("nuts on the plastic", {"pulley.far_side_clamp": "no"}, "fails"),
        Example("not looked at", {}, "undecided"),
    ),
)
