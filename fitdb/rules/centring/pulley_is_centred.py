"""A pulley that only its lugs hold sits as far off centre as the lugs have air, and the belt pulses at every turn."""

from fitdb.model.rule import Example, OneOf, Rule, Severity


def quantity(carried_by: str) -> str:
    return carried_by


RULE = Rule(
    question="Does something other than the lugs hold the pulley in the middle?",
    needs=("pulley.carried_by",),
    quantity=quantity,
    measures="what holds the pulley in the middle",
    formula="word",
    unit="",
    hard=OneOf("centring.pulley_is_centred.words", ("wheel", "own_bearing"), "common practice, no source"),
    severity=Severity.DAMAGE,
    examples=(
        Example("collar in the wheel", {"pulley.carried_by": "wheel"}, "holds"),
        Example("bearing of its own", {"pulley.carried_by": "own_bearing"}, "holds"),
        Example(
            "lugs alone",
            {"pulley.carried_by": "lugs"},
            "fails",
            two_numbers="six lugs go into six windows: comparing two counts says yes",
        ),
        Example("not looked at", {}, "undecided"),
    ),
)
