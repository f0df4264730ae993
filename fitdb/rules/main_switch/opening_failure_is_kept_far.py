"""Some switches fail closed: the board stays on. Others fail open: drive and brake are gone. Nothing but reserve keeps
that failure away, so a switch that fails open should run at half of its current.
"""

from fitdb.model.rule import NOTHING_TO_GUARD, AtLeast, Bound, Example, NothingToGuard, Rule, Severity


def quantity(link_current: float, switch_form: str, failing_state: str, asked: float) -> float | NothingToGuard:
    if switch_form == "pre_charge_lead" or failing_state == "closed":
        return NOTHING_TO_GUARD
    return link_current / asked


RULE = Rule(
    question="Is a switch that fails open far from its limit?",
    needs=("switch.link_current", "switch.switch_form", "switch.failing_state", "pack.asked_current"),
    quantity=quantity,
    measures="continuous current of a switch that fails open, over the current asked",
    formula="n = I_switch/I_ask (nothing to ask of a switch that fails closed)",
    unit="",
    hard=AtLeast(Bound("main_switch.opening_failure_is_kept_far.least", 1.25, "common practice, no source")),
    comfort=AtLeast(Bound("main_switch.opening_failure_is_kept_far.comfort", 2.0, "common practice, no source")),
    severity=Severity.INJURY,
    caution=(
        "This switch fails open: drive and brake go together. Learn to stop by foot or to step off, leave distance, and"
        " have a second way to stop."
    ),
    remedy_hint="a switch for more current, or one that fails closed with a loop plug beside it",
    examples=(
        Example(
            "120 A switch, 60 A asked",
            {
                "switch.link_current": 120.0,
                "switch.switch_form": "relay",
                "switch.failing_state": "open",
                "pack.asked_current": 60.0,
            },
            "holds",
            0.75,
        ),
        Example(
            "60 A switch, 60 A asked",
            {
                "switch.link_current": 60.0,
                "switch.switch_form": "anti_spark_switch",
                "switch.failing_state": "open",
                "pack.asked_current": 60.0,
            },
            "fails",
            -0.25,
        ),
        Example(
            "the same, failing closed",
            {
                "switch.link_current": 60.0,
                "switch.switch_form": "anti_spark_switch",
                "switch.failing_state": "closed",
                "pack.asked_current": 60.0,
            },
            "excused",
        ),
        Example(
            "exactly on the limit",
            {
                "switch.link_current": 75.0,
                "switch.switch_form": "mechanical_switch",
                "switch.failing_state": "open",
                "pack.asked_current": 60.0,
            },
            "holds",
            0.0,
        ),
        Example(
            "label unread",
            {"switch.switch_form": "relay", "switch.failing_state": "open", "pack.asked_current": 60.0},
            "undecided",
        ),
    ),
)
