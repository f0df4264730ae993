"""Leads pass one by one, but they stay there all at once. Leads that are squeezed together rub through their insulation
on the edge of the opening, and one of them may be the plus of the pack.
"""

from fitdb.formulas.lead_openings import bundle_growth
from fitdb.model.rule import AtLeast, Bound, Example, Published, Rule, Severity, Shape, Unsettled


def quantity(
    form: str, length: float, width: float, diameters: tuple[float, ...], cores: tuple[int, ...]
) -> float | Unsettled:
    leads = [diameter for diameter, count in zip(diameters, cores, strict=True) for _ in range(round(count))]
    growth = bundle_growth(form, length, width, leads)
    if growth is None:
        return Unsettled("no arrangement was found and none ruled out: lay the leads in the opening")
    return growth


NEEDS = ("slot.opening_form", "slot.opening_length", "slot.opening_width", "lead*.outer_diameter", "lead*.cores")


def _given(form: str, length: object, width: object, *leads: object) -> dict[str, object]:
    return dict(zip(NEEDS, (form, length, width, leads, (1,) * len(leads)), strict=True))


RULE = Rule(
    question="Do all leads lie in the opening side by side?",
    needs=NEEDS,
    quantity=quantity,
    measures="how much every lead may grow while all still lie in the opening",
    formula="m = max t: circles of d + t lie in the opening without overlap",
    unit="mm",
    hard=AtLeast(Bound("lead_slot.leads_lie_together.least", 0.0, "plane geometry")),
    comfort=AtLeast(Bound("lead_slot.leads_lie_together.comfort", 0.2, "common practice, no source")),
    severity=Severity.FIRE,
    shape=Shape.ASKED,
    directions=(0, +1, +1, -1, -1),
    published=(Published("three equal circles need a hole of 2.1547 of their diameter", "Descartes' circle theorem"),),
    caution=(
        "Round the edge of the opening and sleeve the leads. Conducting decks and walls: insulate the edge as well."
    ),
    remedy_hint="a wider opening, a second one, or thinner leads one above the other",
    examples=(
        Example(
            "three leads of 5.5 mm in a hole of 12.5 mm",
            _given("round_hole", 12.5, (12.4, 12.5, 12.6), (5.4, 5.5, 5.6), (5.4, 5.5, 5.6), (5.4, 5.5, 5.6)),
            "holds",
            0.3,
        ),
        Example(
            "three leads of 5.5 mm in a hole of 11 mm",
            _given("round_hole", 11.0, (10.9, 11.0, 11.1), (5.4, 5.5, 5.6), (5.4, 5.5, 5.6), (5.4, 5.5, 5.6)),
            "fails",
            -0.4,
            two_numbers="one lead of 5.5 mm passes a hole of 11 mm with ease",
        ),
        Example("two leads in a row: exactly on the limit", _given("rectangle", 11.0, 5.5, 5.5, 5.5), "holds", 0.0),
        Example(
            "five unequal leads where neither a way nor a proof is known",
            _given("round_hole", 11.0, 11.0, 5.5, 5.5, 3.5, 3.5, 3.0),
            "undecided",
        ),
        Example(
            "opening unread",
            {"slot.opening_form": "round_hole", "lead*.outer_diameter": (5.5,), "lead*.cores": (1,)},
            "undecided",
        ),
    ),
)
