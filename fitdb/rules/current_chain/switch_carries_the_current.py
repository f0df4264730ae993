"""A switch carries the whole current through a few transistors or one pair of contacts. Overloaded it gets hot, and
fails open in the ride or closed for good. A pre-charge lead lies beside the path and carries none of it.
"""

from fitdb.model.rule import NOTHING_TO_GUARD, AtLeast, Bound, Example, NothingToGuard, Rule, Severity


def quantity(link_current: float, asked: float, switch_form: str) -> float | NothingToGuard:
    return NOTHING_TO_GUARD if switch_form == "pre_charge_lead" else link_current - asked


RULE = Rule(
    question="Does the main switch carry the current that is asked?",
    needs=("switch.link_current", "pack.asked_current", "switch.switch_form"),
    quantity=quantity,
    measures="continuous current of the switch, less what all controllers together may draw",
    formula="m = I_switch − I_ask",
    unit="A",
    hard=AtLeast(Bound("current_chain.switch_carries_the_current.least", 0.0, "common practice, no source")),
    severity=Severity.FIRE,
    caution=(
        "On this build the motor is the brake. A switch that fails open takes it away; one that fails closed cannot "
        "cut the pack off."
    ),
    remedy_hint="a lower pack current in the settings, or a larger switch",
    examples=(
        Example(
            "120 A switch, 80 A asked",
            {"switch.link_current": 120.0, "pack.asked_current": 80.0, "switch.switch_form": "anti_spark_switch"},
            "holds",
            40.0,
        ),
        Example(
            "60 A switch, two motors of 40 A each",
            {"switch.link_current": 60.0, "pack.asked_current": 80.0, "switch.switch_form": "anti_spark_switch"},
            "fails",
            -20.0,
            two_numbers="60 A > 40 A: the label against one setting says yes",
        ),
        Example(
            "exactly on the limit",
            {"switch.link_current": 80.0, "pack.asked_current": 80.0, "switch.switch_form": "loop_plug"},
            "holds",
            0.0,
        ),
        Example(
            "a pre-charge lead",
            {"switch.link_current": 5.0, "pack.asked_current": 80.0, "switch.switch_form": "pre_charge_lead"},
            "excused",
        ),
        Example(
            "switch unread",
            {"pack.asked_current": 80.0, "switch.switch_form": "anti_spark_switch"},
            "undecided",
        ),
    ),
)
