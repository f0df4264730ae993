"""Too little resistance and the pre-charge sparks itself; too much and the capacitors are still half empty when the
contacts close, because what the electronics draw meanwhile holds them down.
"""

from fitdb.model.rule import NOTHING_TO_GUARD, Between, Bound, Example, NothingToGuard, Rule, Severity


def quantity(resistance: float, switch_form: str) -> float | NothingToGuard:
    return resistance if switch_form == "pre_charge_lead" else NOTHING_TO_GUARD


RULE = Rule(
    question="Has the pre-charge lead a resistance that suits?",
    needs=("pre_charge.pre_charge_resistance", "pre_charge.switch_form"),
    quantity=quantity,
    measures="resistance of the pre-charge path of a lead",
    formula="R (nothing to ask of an electronic switch)",
    unit="ohm",
    hard=Between(
        Bound("pre_charge.resistance_is_between.least", 5.0, "common practice, no source"),
        Bound("pre_charge.resistance_is_between.most", 100.0, "common practice, no source"),
    ),
    severity=Severity.DAMAGE,
    remedy_hint="a resistor of 5 to 100 ohm, made for the pulse",
    two_numbers_suffice="one resistance against two limits",
    examples=(
        Example(
            "47 ohm",
            {"pre_charge.pre_charge_resistance": (46.0, 47.0, 48.0), "pre_charge.switch_form": "pre_charge_lead"},
            "holds",
            42.0,
        ),
        Example(
            "470 ohm",
            {"pre_charge.pre_charge_resistance": 470.0, "pre_charge.switch_form": "pre_charge_lead"},
            "fails",
            -370.0,
        ),
        Example(
            "exactly on the limit",
            {"pre_charge.pre_charge_resistance": 5.0, "pre_charge.switch_form": "pre_charge_lead"},
            "holds",
            0.0,
        ),
        Example(
            "an anti-spark switch minds its own",
            {"pre_charge.pre_charge_resistance": 470.0, "pre_charge.switch_form": "anti_spark_switch"},
            "excused",
        ),
        Example("resistance unread", {"pre_charge.switch_form": "pre_charge_lead"}, "undecided"),
    ),
)
