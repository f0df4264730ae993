"""A riser lifts the deck away from the axle and takes its height out of every lead between them. A lead that is pulled
tight tears a phase off, and a motor with one phase gone locks its wheel.
"""

from fitdb.model.rule import NOTHING_TO_GUARD, AtLeast, Bound, Example, NothingToGuard, Rule, Severity


def quantity(spare: float, risers: tuple[float, ...], moving: str) -> float | NothingToGuard:
    return spare - sum(risers) if moving == "yes" else NOTHING_TO_GUARD


RULE = Rule(
    question="Is the lead long enough for the raised deck?",
    needs=("lead.spare_length", "riser*.thickness", "lead.moving"),
    quantity=quantity,
    measures="spare length of the lead less the risers between deck and axle",
    formula="m = spare − Σ risers (for a lead that goes to the axle)",
    unit="mm",
    hard=AtLeast(Bound("lead_length.spare_covers_the_raise.least", 10.0, "common practice, no source")),
    severity=Severity.INJURY,
    caution="On this build the motor is the brake. A torn lead takes it away without warning, or locks the wheel.",
    remedy_hint="an extension lead, joined inside the sealed box",
    examples=(
        Example(
            "25 mm spare, 8 mm riser",
            {"lead.spare_length": (22.0, 25.0, 28.0), "riser*.thickness": (8.0,), "lead.moving": "yes"},
            "holds",
            7.0,
        ),
        Example(
            "25 mm spare, 12 and 8 mm of risers",
            {"lead.spare_length": (23.5, 25.0, 26.5), "riser*.thickness": (12.0, 8.0), "lead.moving": "yes"},
            "fails",
            -5.0,
            two_numbers="25 is more than 20: two numbers say yes",
        ),
        Example(
            "exactly on the limit",
            {"lead.spare_length": 18.0, "riser*.thickness": (8.0,), "lead.moving": "yes"},
            "holds",
            0.0,
        ),
        Example(
            "a lead that stays inside the box",
            {"lead.spare_length": 2.0, "riser*.thickness": (8.0,), "lead.moving": "no"},
            "excused",
        ),
        Example("spare unread", {"riser*.thickness": (8.0,), "lead.moving": "yes"}, "undecided"),
    ),
)
