"""A pre-charge part takes all the energy of the capacitors as heat. One that is too small burns out, often so that it
stays closed and nobody notices until the next spark.
"""

from fitdb.model.rule import NOTHING_TO_GUARD, AtLeast, Bound, Example, NothingToGuard, Rule, Severity


def quantity(capacitance_most: float, switch_form: str, capacitance: float) -> float | NothingToGuard:
    if switch_form not in ("anti_spark_switch", "pre_charge_lead"):
        return NOTHING_TO_GUARD
    return capacitance_most - capacitance


RULE = Rule(
    question="Is the pre-charge part made for all the capacitors of the controllers?",
    needs=("pre_charge.capacitance_most", "pre_charge.switch_form", "controller.rail_capacitance_together"),
    quantity=quantity,
    measures="greatest capacitance that it may be closed on, less that of all controllers",
    formula="m = C_most − Σ C",
    unit="mF",
    hard=AtLeast(Bound("pre_charge.bears_the_capacitance.least", 0.0, "common practice, no source")),
    severity=Severity.DAMAGE,
    remedy_hint="a part for more capacitance",
    examples=(
        Example(
            "5 mF against one controller of 1.8 mF",
            {
                "pre_charge.capacitance_most": 5.0,
                "pre_charge.switch_form": "anti_spark_switch",
                "controller.rail_capacitance_together": 1.8,
            },
            "holds",
            3.2,
        ),
        Example(
            "3 mF against two controllers of 1.8 mF",
            {
                "pre_charge.capacitance_most": 3.0,
                "pre_charge.switch_form": "anti_spark_switch",
                "controller.rail_capacitance_together": 3.6,
            },
            "fails",
            -0.6,
            two_numbers="3 mF is more than the 1.8 mF on the label of the controller, but there are two of them",
        ),
        Example(
            "exactly on the limit",
            {
                "pre_charge.capacitance_most": 3.0,
                "pre_charge.switch_form": "pre_charge_lead",
                "controller.rail_capacitance_together": 3.0,
            },
            "holds",
            0.0,
        ),
        Example(
            "a bare loop plug pre-charges nothing",
            {
                "pre_charge.capacitance_most": 0.1,
                "pre_charge.switch_form": "loop_plug",
                "controller.rail_capacitance_together": 3.0,
            },
            "excused",
        ),
        Example(
            "capacitance unread",
            {"pre_charge.capacitance_most": 3.0, "pre_charge.switch_form": "anti_spark_switch"},
            "undecided",
        ),
    ),
)
