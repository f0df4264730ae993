"""Two controllers of different make, model or generation answer one throttle in two ways. One side pulls or brakes
before the other, and the board turns.
"""

from fitdb.model.rule import Example, Rule, Same, Severity


def quantity(one: str, other: str) -> tuple[str, ...]:
    return (one, other)


RULE = Rule(
    question="Are both controllers of one kind and one generation?",
    needs=("controller.generation", "other_controller.generation"),
    quantity=quantity,
    measures="make, model and generation of program of both",
    formula="words",
    unit="",
    hard=Same("controller_pair.generations_agree.words", "common practice, no source"),
    severity=Severity.INJURY,
    two_numbers_suffice="words: there is nothing to compare but the two",
    caution=(
        "A brake on one side alone throws the rider. Wheels up: both sides have to brake alike before the first ride."
    ),
    examples=(
        Example("two alike", {"controller.generation": "kind_a_2", "other_controller.generation": "kind_a_2"}, "holds"),
        Example(
            "two generations", {"controller.generation": "kind_a_2", "other_controller.generation": "kind_a_1"}, "fails"
        ),
        Example("one unread", {"controller.generation": "kind_a_2"}, "undecided"),
    ),
)
