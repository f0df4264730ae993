"""On a link one controller leads and the other follows, each under its own number. Two leaders fight, two followers
wait.
"""

from fitdb.model.rule import Example, OneOf, Rule, Severity


def quantity(one: str, other: str) -> str:
    return f"{one}_and_{other}"


RULE = Rule(
    question="Does one controller lead and the other follow, or does the receiver drive each?",
    needs=("controller.link_role", "other_controller.link_role"),
    quantity=quantity,
    measures="part that each plays on the link",
    formula="words",
    unit="",
    hard=OneOf(
        "controller_pair.one_leads.words",
        ("leader_and_follower", "follower_and_leader", "alone_and_alone"),
        "common practice, no source",
    ),
    severity=Severity.INJURY,
    two_numbers_suffice="words: there is nothing to compare but the two",
    caution=(
        "A brake on one side alone throws the rider. Wheels up: both sides have to brake alike before the first ride."
    ),
    remedy_hint="set one to lead and the other to follow, each with its own number",
    examples=(
        Example(
            "leader and follower", {"controller.link_role": "leader", "other_controller.link_role": "follower"}, "holds"
        ),
        Example("two leaders", {"controller.link_role": "leader", "other_controller.link_role": "leader"}, "fails"),
        Example("one unread", {"controller.link_role": "leader"}, "undecided"),
    ),
)
