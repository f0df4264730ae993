"""A plug goes into a socket; two of a kind do not go together. Some housings are made so that any two of them mate."""

from fitdb.model.rule import Example, Rule, Same, Severity

MATE = {"plug": "socket", "socket": "plug"}


def quantity(near_gender: str, far_gender: str) -> tuple[str, str]:
    return MATE.get(near_gender, near_gender), far_gender


RULE = Rule(
    question="Does one go into the other?",
    needs=("near.gender", "far.gender"),
    quantity=quantity,
    measures="what the side of the pack wants to meet, and what meets it",
    formula="mate(gender_pack side) = gender_other",
    unit="",
    hard=Same("power_plugs.genders_mate", "common practice, no source"),
    severity=Severity.DAMAGE,
    remedy_hint="an adapter lead, or another connector on one side",
    examples=(
        Example("socket and plug", {"near.gender": "socket", "far.gender": "plug"}, "holds"),
        Example(
            "two plugs",
            {"near.gender": "plug", "far.gender": "plug"},
            "fails",
            two_numbers="both are of the 60 A size: the sizes agree",
        ),
        Example("housings without a gender", {"near.gender": "none", "far.gender": "none"}, "holds"),
        Example("far side unread", {"near.gender": "socket"}, "undecided"),
    ),
)
