"""The minus of both controllers meets at the pack. A minus in the link as well carries motor current the moment a pack
lead comes loose, and burns link and inputs.
"""

from fitdb.model.rule import Example, OneOf, Rule, Severity


def quantity(one: str, other: str) -> tuple[str, ...]:
    return (one, other)


RULE = Rule(
    question="Does the minus of both controllers meet at the pack alone?",
    needs=("controller.link_ground_joined", "other_controller.link_ground_joined"),
    quantity=quantity,
    measures="whether the link joins the minus of both",
    formula="words",
    unit="",
    hard=OneOf("controller_pair.ground_runs_by_the_pack_alone.words", ("no",), "common practice, no source"),
    severity=Severity.DAMAGE,
    two_numbers_suffice="words: there is nothing to compare",
    remedy_hint="the minus of the link pulled at one end",
    examples=(
        Example(
            "minus at the pack",
            {"controller.link_ground_joined": "no", "other_controller.link_ground_joined": "no"},
            "holds",
        ),
        Example(
            "minus in the link too",
            {"controller.link_ground_joined": "yes", "other_controller.link_ground_joined": "yes"},
            "fails",
        ),
        Example("one unread", {"controller.link_ground_joined": "no"}, "undecided"),
    ),
)
