"""A lead gets hot with the current in its copper. Short and in open air it bears ten amperes for every square
millimetre; in a bundle, in a sleeve or in a closed box seven. Too thin, its insulation melts onto its neighbour.
"""

from fitdb.formulas.power_leads import lead_current
from fitdb.model.rule import AtLeast, Bound, Constant, Example, Published, Rule, Severity


def quantity(area: float, laying: str, asked: float, open_air: float, enclosed_bundle: float) -> float:
    return lead_current(area, laying, open_air, enclosed_bundle) - asked


RULE = Rule(
    question="Does the lead carry the current that is asked?",
    needs=("lead.area", "lead.laying", "pack.asked_current"),
    quantity=quantity,
    measures="current that the lead bears where it lies, less what the controllers behind it may draw",
    formula="m = j·A − I_ask, j = 10 A/mm² in open air, 7 A/mm² in a bundle",
    unit="A",
    hard=AtLeast(Bound("power_lead.carries_the_current.least", 0.0, "common practice, no source")),
    severity=Severity.FIRE,
    constants=(
        Constant("open_air", 10.0, "A/mm2", "common practice, no source"),
        Constant("enclosed_bundle", 7.0, "A/mm2", "common practice, no source"),
    ),
    published=(
        Published("14 AWG 2.08, 12 AWG 3.31, 10 AWG 5.26, 8 AWG 8.37 mm²", "ASTM B258"),
        Published("fixed wiring at 90 °C: 14 AWG 25 A, 12 AWG 30 A, 10 AWG 40 A, 8 AWG 55 A", "NEC table 310.16"),
    ),
    caution=(
        "A lithium pack cannot be switched off: a lead that melts onto its neighbour is a short. Feel the leads after "
        "the first rides."
    ),
    remedy_hint="a thicker lead, two leads side by side, or a lower pack current in the settings",
    examples=(
        Example(
            "10 AWG in open air, 40 A",
            {"lead.area": 5.26, "lead.laying": "open_air", "pack.asked_current": 40.0},
            "holds",
            12.6,
        ),
        Example(
            "14 AWG in open air, two motors of 20 A each",
            {"lead.area": 2.08, "lead.laying": "open_air", "pack.asked_current": 40.0},
            "fails",
            -19.2,
            two_numbers="20.8 A > 20 A: the lead against one setting says yes",
        ),
        Example(
            "exactly on the limit",
            {"lead.area": 4.0, "lead.laying": "open_air", "pack.asked_current": 40.0},
            "holds",
            0.0,
        ),
        Example(
            "10 AWG, not known whether in a bundle, 45 A",
            {"lead.area": 5.26, "lead.laying": "open_air|enclosed_bundle", "pack.asked_current": 45.0},
            "undecided",
        ),
        Example("gauge unread", {"lead.laying": "open_air", "pack.asked_current": 40.0}, "undecided"),
    ),
)
