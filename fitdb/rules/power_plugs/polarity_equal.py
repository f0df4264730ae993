"""The housing marks one contact; which of the two leads was soldered to it is the builder's own choice. Reversed, every
controller on the rail dies in the instant it is plugged in. Only a meter tells.
"""

from fitdb.model.rule import Example, Rule, Same, Severity


def quantity(near_polarity: str, far_polarity: str) -> tuple[str, str]:
    return near_polarity, far_polarity


RULE = Rule(
    question="Is plus on the same contact of both, by the meter?",
    needs=("near.polarity", "far.polarity"),
    quantity=quantity,
    measures="contact that is plus on the side of the pack, and on the other",
    formula="plus_pack side = plus_other",
    unit="",
    hard=Same("power_plugs.polarity_equal", "common practice, no source"),
    severity=Severity.FIRE,
    caution=(
        "A plug that mates is not a plug that matches. Meter plus and minus on both sides before they meet: reversed "
        "polarity destroys the controllers at once."
    ),
    examples=(
        Example("both on the mark", {"near.polarity": "plus_on_marked", "far.polarity": "plus_on_marked"}, "holds"),
        Example(
            "one of them reversed",
            {"near.polarity": "plus_on_marked", "far.polarity": "minus_on_marked"},
            "fails",
            two_numbers="form, size and gender agree: it clicks in",
        ),
        Example(
            "far side not metered",
            {"near.polarity": "plus_on_marked", "far.polarity": "plus_on_marked|minus_on_marked"},
            "undecided",
        ),
        Example("far side unread", {"near.polarity": "plus_on_marked"}, "undecided"),
    ),
)
