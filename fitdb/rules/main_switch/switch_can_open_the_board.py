"""Whatever stands in the place of the main switch is the only thing that turns the board off, and all of the current
goes through it. A pre-charge lead does neither: its resistor lets a trickle through to fill the capacitors, burns when
the motors draw, and leaves the board without a switch.
"""

from fitdb.model.rule import Example, OneOf, Rule, Severity


def quantity(switch_form: str) -> str:
    return switch_form


RULE = Rule(
    question="Can what stands in the place of the main switch turn the board off and carry its current?",
    needs=("switch.switch_form",),
    quantity=quantity,
    measures="what stands in the place of the main switch",
    formula="word",
    unit="",
    hard=OneOf(
        "main_switch.switch_can_open_the_board.words",
        ("anti_spark_switch", "loop_plug", "mechanical_switch", "relay"),
        "common practice, no source",
    ),
    severity=Severity.INJURY,
    caution=(
        "A board that cannot be switched off runs on when the hand remote fails. Have a switch or a loop plug that you"
        " can reach, and try it on the bench with the wheels off the ground."
    ),
    remedy_hint="a main switch or a loop plug; the pre-charge lead has a place of its own beside it",
    two_numbers_suffice="a word that is seen; no sizes are compared",
    examples=(
        Example("anti-spark switch", {"switch.switch_form": "anti_spark_switch"}, "holds"),
        Example("loop plug", {"switch.switch_form": "loop_plug"}, "holds"),
        Example("a pre-charge lead and nothing else", {"switch.switch_form": "pre_charge_lead"}, "fails"),
        Example(
            "a small box with two leads: switch or pre-charge",
            {"switch.switch_form": "anti_spark_switch|pre_charge_lead"},
            "undecided",
        ),
        Example("not looked at", {}, "undecided"),
    ),
)
