"""A fuse guards the lead. With a fuse above what the lead bears a jammed wheel or a chafed sleeve heats the lead
until its insulation burns, and the fuse looks on.

Where two packs with a fuse each feed one lead, a fault draws through both: the lead has to bear the two together.
"""

from fitdb.formulas.power_leads import lead_current
from fitdb.model.rule import AtLeast, Bound, Constant, Example, Rule, Severity


def quantity(area: float, laying: str, fuses: tuple[float, ...], open_air: float, enclosed_bundle: float) -> float:
    return lead_current(area, laying, open_air, enclosed_bundle) - sum(fuses)


RULE = Rule(
    question="Does the fuse blow before this lead burns?",
    needs=("lead.area", "lead.laying", "fuse*.rated_current"),
    quantity=quantity,
    measures="current that the lead bears where it lies, less the rated current of the fuses before it, all together",
    formula="m = j·A − Σ I_fuse, j = 10 A/mm² in open air, 7 A/mm² in a bundle",
    unit="A",
    hard=AtLeast(Bound("fuse_lead.blows_before_the_lead_burns.least", 0.0, "common practice, no source")),
    severity=Severity.FIRE,
    constants=(
        Constant("open_air", 10.0, "A/mm2", "common practice, no source"),
        Constant("enclosed_bundle", 7.0, "A/mm2", "common practice, no source"),
    ),
    caution="Never put in a fuse above what the thinnest lead behind it bears, and never bridge one.",
    remedy_hint="smaller fuses, or a thicker lead",
    examples=(
        Example(
            "50 A fuse before 10 AWG in open air",
            {"lead.area": 5.26, "lead.laying": "open_air", "fuse*.rated_current": (50.0,)},
            "holds",
            2.6,
        ),
        Example(
            "60 A fuse before 14 AWG in open air",
            {"lead.area": 2.08, "lead.laying": "open_air", "fuse*.rated_current": (60.0,)},
            "fails",
            -39.2,
            two_numbers="60 A on the fuse and 40 A asked: the fuse lets the ride pass",
        ),
        Example(
            "exactly on the limit",
            {"lead.area": 5.0, "lead.laying": "open_air", "fuse*.rated_current": (50.0,)},
            "holds",
            0.0,
        ),
        Example(
            "10 AWG, not known whether in a bundle",
            {"lead.area": 5.26, "lead.laying": "open_air|enclosed_bundle", "fuse*.rated_current": (50.0,)},
            "undecided",
        ),
        Example(
            "two packs with a 40 A fuse each before 10 AWG in open air",
            {"lead.area": 5.26, "lead.laying": "open_air", "fuse*.rated_current": (40.0, 40.0)},
            "fails",
            -27.4,
            two_numbers="40 A is less than 52 A: either fuse against the lead says yes",
        ),
        Example("gauge unread", {"lead.laying": "open_air", "fuse*.rated_current": (50.0,)}, "undecided"),
    ),
)
