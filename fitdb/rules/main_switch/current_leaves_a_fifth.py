"""The current on a switch is that of a cool bench. Inside a closed box it runs hot at the same current, and a contact
or transistor that overheats opens in the middle of the ride. A fifth is kept in hand.
"""

from fitdb.model.rule import NOTHING_TO_GUARD, AtLeast, Bound, Constant, Example, NothingToGuard, Rule, Severity


def quantity(link_current: float, switch_form: str, asked: float, share: float) -> float | NothingToGuard:
    return NOTHING_TO_GUARD if switch_form == "pre_charge_lead" else link_current - asked / share


RULE = Rule(
    question="Does the switch carry the current with a fifth in hand?",
    needs=("switch.link_current", "switch.switch_form", "pack.asked_current"),
    quantity=quantity,
    measures="continuous current of the switch, less the current asked over 0.8",
    formula="m = I_switch − I_ask/0.8",
    unit="A",
    hard=AtLeast(Bound("main_switch.current_leaves_a_fifth.least", 0.0, "common practice, no source")),
    severity=Severity.INJURY,
    constants=(Constant("share", 0.8, "1", "common practice, no source"),),
    caution=(
        "On this build the motor is the brake. A switch that opens takes it away without warning: learn to stop by foot"
        " or to step off, and leave distance."
    ),
    remedy_hint="a switch for more current, or a lower pack current in the controllers",
    examples=(
        Example(
            "120 A switch, 80 A asked",
            {"switch.link_current": 120.0, "switch.switch_form": "anti_spark_switch", "pack.asked_current": 80.0},
            "holds",
            20.0,
        ),
        Example(
            "60 A switch, 60 A asked",
            {"switch.link_current": 60.0, "switch.switch_form": "anti_spark_switch", "pack.asked_current": 60.0},
            "fails",
            -15.0,
            two_numbers="60 A against 60 A: two numbers say yes, but nothing is left for a warm day in a closed box",
        ),
        Example(
            "exactly on the limit",
            {"switch.link_current": 75.0, "switch.switch_form": "loop_plug", "pack.asked_current": 60.0},
            "holds",
            0.0,
        ),
        Example(
            "a lead that only pre-charges",
            {"switch.link_current": 1.0, "switch.switch_form": "pre_charge_lead", "pack.asked_current": 60.0},
            "excused",
        ),
        Example("label unread", {"switch.switch_form": "loop_plug", "pack.asked_current": 60.0}, "undecided"),
    ),
)
