"""Volts that are lost along a lead are missing at the motor, and they heat the lead. Long leads between two boxes
have to be thicker than their current alone would ask.
"""

from fitdb.formulas.power_leads import share_of_volts_lost
from fitdb.model.rule import AtMost, Bound, Constant, Example, Published, Rule, Severity


def quantity(length: float, area: float, asked: float, full_volts: float, resistivity: float) -> float:
    return share_of_volts_lost(asked, length, area, full_volts, resistivity)


RULE = Rule(
    question="Is little lost along the lead?",
    needs=("lead.length", "lead.area", "pack.asked_current", "pack.full_volts"),
    quantity=quantity,
    measures="volts lost out and back at the asked current, in per cent of the volts of the full pack",
    formula="u = 100·I_ask·ρ·2l / (A·V_full)",
    unit="percent",
    hard=AtMost(Bound("power_lead.little_is_lost.most", 5.0, "common practice, no source")),
    comfort=AtMost(Bound("power_lead.little_is_lost.comfort", 2.0, "common practice, no source")),
    severity=Severity.NUISANCE,
    constants=(Constant("resistivity", 0.021, "ohm mm2/m", "common practice, no source"),),
    published=(Published("annealed copper at 20 °C: 0.0172 Ω·mm²/m", "IEC 60028"),),
    remedy_hint="a thicker or a shorter lead",
    examples=(
        Example(
            "300 mm of 10 AWG, 40 A at 50.4 V",
            {
                "lead.length": (298.5, 300.0, 301.5),
                "lead.area": 5.26,
                "pack.asked_current": 40.0,
                "pack.full_volts": 50.4,
            },
            "holds",
            4.81,
        ),
        Example(
            "1200 mm of 16 AWG, 80 A at 42.0 V",
            {
                "lead.length": (1198.5, 1200.0, 1201.5),
                "lead.area": 1.31,
                "pack.asked_current": 80.0,
                "pack.full_volts": 42.0,
            },
            "fails",
            -2.329,
        ),
        Example(
            "exactly on the limit",
            {"lead.length": 1000.0, "lead.area": 1.0, "pack.asked_current": 50.0, "pack.full_volts": 42.0},
            "holds",
            0.0,
        ),
        Example(
            "length unread",
            {"lead.area": 5.26, "pack.asked_current": 40.0, "pack.full_volts": 50.4},
            "undecided",
        ),
    ),
)
