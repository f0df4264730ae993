"""Empty capacitors behind a closing contact take all their energy in one spark. Each spark burns a pit, a pitted
contact runs hot, and one day it opens in the middle of the ride.
"""

from fitdb.formulas.pack_flow import capacitor_energy_j
from fitdb.model.rule import NOTHING_TO_GUARD, AtMost, Bound, Example, NothingToGuard, Published, Rule, Severity


def quantity(
    capacitance: float, full_volts: float, switch_form: str, pre_charges: tuple[str, ...]
) -> float | NothingToGuard:
    if {switch_form, *pre_charges} & {"anti_spark_switch", "pre_charge_lead"}:
        return NOTHING_TO_GUARD
    return capacitor_energy_j(capacitance, full_volts)


RULE = Rule(
    question="Are the contacts spared the spark of the capacitors?",
    needs=(
        "controller.rail_capacitance_together",
        "pack.full_volts",
        "switch.switch_form",
        "pre_charge*.switch_form",
    ),
    quantity=quantity,
    measures="energy in the spark when bare contacts close on empty capacitors",
    formula="E = ½·C·V² (nothing to ask where something pre-charges them)",
    unit="J",
    hard=AtMost(Bound("main_switch.contacts_close_without_a_spark.most", 1.0, "common practice, no source")),
    comfort=AtMost(Bound("main_switch.contacts_close_without_a_spark.comfort", 0.5, "common practice, no source")),
    severity=Severity.DAMAGE,
    published=(Published("2.5 J (2 mF at 50 V) pits contacts within a few closings", "common practice, no source"),),
    caution="Take off rings and watch; cover every open terminal. Join the pack last, and never twice within a minute.",
    remedy_hint="a pre-charge or anti-spark part",
    examples=(
        Example(
            "one small controller, 10 cells",
            {
                "controller.rail_capacitance_together": 0.9,
                "pack.full_volts": 42.0,
                "switch.switch_form": "loop_plug",
            },
            "holds",
            0.2062,
        ),
        Example(
            "2 mF at 50 V through a loop plug",
            {
                "controller.rail_capacitance_together": 2.0,
                "pack.full_volts": 50.0,
                "switch.switch_form": "loop_plug",
            },
            "fails",
            -1.5,
            two_numbers="the plug is made for 130 V and 120 A: both numbers say yes",
        ),
        Example(
            "the same behind a pre-charge lead",
            {
                "controller.rail_capacitance_together": 2.0,
                "pack.full_volts": 50.0,
                "switch.switch_form": "loop_plug",
                "pre_charge*.switch_form": ("pre_charge_lead",),
            },
            "excused",
        ),
        Example(
            "exactly on the limit",
            {
                "controller.rail_capacitance_together": 5.0,
                "pack.full_volts": 20.0,
                "switch.switch_form": "relay",
            },
            "holds",
            0.0,
        ),
        Example(
            "capacitance unread",
            {"pack.full_volts": 50.4, "switch.switch_form": "mechanical_switch"},
            "undecided",
        ),
    ),
)
