"""A lead that is touched for a blink leaves most of the volts over the contacts, and they spark after all. After
three times resistance times capacitance a twentieth of the volts is left.
"""

from fitdb.formulas.pack_flow import pre_charge_seconds
from fitdb.model.rule import NOTHING_TO_GUARD, AtLeast, Bound, Constant, Example, NothingToGuard, Rule, Severity


def quantity(
    seconds: float, resistance: float, switch_form: str, capacitance: float, time_constants: float
) -> float | NothingToGuard:
    if switch_form != "pre_charge_lead":
        return NOTHING_TO_GUARD
    return seconds - pre_charge_seconds(resistance, capacitance, time_constants)


RULE = Rule(
    question="Is the pre-charge lead left on for long enough?",
    needs=(
        "pre_charge.pre_charge_time",
        "pre_charge.pre_charge_resistance",
        "pre_charge.switch_form",
        "controller.rail_capacitance_together",
    ),
    quantity=quantity,
    measures="time of the pre-charge less the time in which the capacitors fill to all but a twentieth",
    formula="m = t − 3·R·C",
    unit="s",
    hard=AtLeast(Bound("pre_charge.lasts_long_enough.least", 0.0, "common practice, no source")),
    severity=Severity.DAMAGE,
    constants=(Constant("time_constants", 3.0, "1", "common practice, no source: e⁻³ = 0.05"),),
    remedy_hint="wait longer, or a smaller resistance",
    examples=(
        Example(
            "1 s through 47 ohm into 2 mF",
            {
                "pre_charge.pre_charge_time": 1.0,
                "pre_charge.pre_charge_resistance": 47.0,
                "pre_charge.switch_form": "pre_charge_lead",
                "controller.rail_capacitance_together": 2.0,
            },
            "holds",
            0.718,
        ),
        Example(
            "half a second through 100 ohm into 3.6 mF",
            {
                "pre_charge.pre_charge_time": 0.5,
                "pre_charge.pre_charge_resistance": 100.0,
                "pre_charge.switch_form": "pre_charge_lead",
                "controller.rail_capacitance_together": 3.6,
            },
            "fails",
            -0.58,
        ),
        Example(
            "exactly on the limit",
            {
                "pre_charge.pre_charge_time": 0.6,
                "pre_charge.pre_charge_resistance": 100.0,
                "pre_charge.switch_form": "pre_charge_lead",
                "controller.rail_capacitance_together": 2.0,
            },
            "holds",
            0.0,
        ),
        Example(
            "capacitance unread",
            {
                "pre_charge.pre_charge_time": 1.0,
                "pre_charge.pre_charge_resistance": 47.0,
                "pre_charge.switch_form": "pre_charge_lead",
            },
            "undecided",
        ),
    ),
)
