"""The plug has to go through before it can be joined on the other side: pushed straight, turned as one likes. One that
does not pass has to be taken off and soldered on again, lead by lead, on wires that cannot be switched off.
"""

from fitdb.formulas.lead_openings import plug_margin
from fitdb.model.rule import AtLeast, Bound, Example, Published, Rule, Severity

NEEDS = (
    "slot.opening_form",
    "plug.section_form",
    "slot.opening_length",
    "slot.opening_width",
    "plug.section_a",
    "plug.section_b",
)


def _given(form: str, section: str, *sizes: object) -> dict[str, object]:
    return dict(zip(NEEDS, (form, section, *sizes), strict=False))


RULE = Rule(
    question="Does the plug pass the opening?",
    needs=NEEDS,
    quantity=plug_margin,
    measures="how much the plug's section may grow before it stops passing",
    formula="m = max t: (a + t) × (b + t), turned at will, lies inside the opening",
    unit="mm",
    hard=AtLeast(Bound("lead_slot.plug_passes_the_opening.least", 0.5, "common practice, no source")),
    severity=Severity.NUISANCE,
    published=(
        Published(
            "a rectangle longer than another may lie in it only turned, and then its thin side decides as well",
            "Carver 1957; Wetzel, Mathematics Magazine 73 (2000)",
        ),
    ),
    caution=(
        "A plug that does not pass is soldered again: one lead at a time, the other insulated. A lithium pack "
        "cannot be switched off; leads of a pack that touch while they are bare burn."
    ),
    remedy_hint="pull the lead through before its plug is soldered on, or open the slot",
    examples=(
        Example(
            "two-pole block 16 × 8 through a slot of 30 × 9",
            _given("rectangle", "rectangle", 30.0, (8.9, 9.0, 9.1), 16.0, 8.0),
            "holds",
            0.5,
        ),
        Example(
            "the same block through a drilled hole of 16.5 mm",
            _given("round_hole", "rectangle", 16.5, (16.4, 16.5, 16.6), 16.0, 8.0),
            "fails",
            -1.889,
            two_numbers="16.5 is more than 16: the longer side against the hole says yes",
        ),
        Example(
            "round-ended slot of 17 × 9",
            _given("round_ended_slot", "rectangle", 17.0, (8.9, 9.0, 9.1), 16.0, 8.0),
            "fails",
            -2.136,
            two_numbers="17 is more than 16 and 9 more than 8: length and width say yes",
        ),
        Example(
            "exactly on the limit",
            _given("rectangle", "round", 30.0, 6.5, 6.0, 6.0),
            "holds",
            0.0,
        ),
        Example(
            "form of the opening unknown",
            _given("rectangle|round_hole", "rectangle", 17.0, 17.0, 16.0, 8.0),
            "undecided",
        ),
        Example("section unread", _given("rectangle", "rectangle", 30.0, 9.0), "undecided"),
    ),
)
