"""Two controllers that share the throttle by a link have to speak one language on it."""

from fitdb.model.rule import Example, Rule, Same, Severity


def quantity(one: str, other: str) -> tuple[str, ...]:
    return (one, other)


RULE = Rule(
    question="Are both controllers made for the same kind of link between them?",
    needs=("controller.link_form", "other_controller.link_form"),
    quantity=quantity,
    measures="form of the link of both, or none where the receiver drives each",
    formula="words",
    unit="",
    hard=Same("controller_pair.links_agree.words", "common practice, no source"),
    severity=Severity.INJURY,
    two_numbers_suffice="words: there is nothing to compare but the two",
    caution=(
        "A brake on one side alone throws the rider. Wheels up: both sides have to brake alike before the first ride."
    ),
    examples=(
        Example(
            "bus and bus",
            {"controller.link_form": "two_wire_bus", "other_controller.link_form": "two_wire_bus"},
            "holds",
        ),
        Example(
            "bus and serial", {"controller.link_form": "two_wire_bus", "other_controller.link_form": "serial"}, "fails"
        ),
        Example("one unread", {"controller.link_form": "two_wire_bus"}, "undecided"),
    ),
)
