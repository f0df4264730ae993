"""At full steer the axle end of the lead swings away, and on a bump the deck bends and pulls at a lead that lies below
it. What is left then has to be a loop that still hangs loose: a tight lead breaks at its plug, at speed.
"""

from math import radians, sin

from fitdb.formulas.deck_flex import lead_lengthening
from fitdb.model.rule import AtLeast, Bound, Constant, Example, Rule, Severity


def quantity(
    spare: float,
    risers: tuple[float, ...],
    moving: str,
    axis_distance: float,
    steer: float,
    below: float,
    sag: float,
    wheelbase: float,
    times_sag: float,
) -> float:
    left = spare - lead_lengthening(below, times_sag * sag, wheelbase)
    return left - sum(risers) - axis_distance * sin(radians(steer)) if moving == "yes" else left


LEAD = {
    "lead.moving": "yes",
    "lead.axis_distance": (35.0, 40.0, 45.0),
    "truck.steer": (12.0, 15.0, 18.0),
    "lead.below_deck_middle": (22.0, 25.0, 28.0),
    "deck.static_sag": (13.0, 15.0, 17.0),
    "deck.wheelbase": 760.0,
}
NO_STEER = {
    "lead.moving": "yes",
    "lead.axis_distance": 40.0,
    "truck.steer": 0.0,
    "lead.below_deck_middle": 25.0,
    "deck.static_sag": 12.5,
    "deck.wheelbase": 750.0,
}

RULE = Rule(
    question="Is the lead long enough at full steer on a bump?",
    needs=(
        "lead.spare_length",
        "riser*.thickness",
        "lead.moving",
        "lead.axis_distance",
        "truck.steer",
        "lead.below_deck_middle",
        "deck.static_sag",
        "deck.wheelbase",
    ),
    quantity=quantity,
    measures="loop that is left at full steer, with the deck at twice its sag",
    formula="m = spare − Σ risers − y·sin δ − z·6·(2s)/L",
    unit="mm",
    hard=AtLeast(Bound("lead_length.spare_covers_steer_and_flex.least", 15.0, "common practice, no source")),
    comfort=AtLeast(Bound("lead_length.spare_covers_steer_and_flex.comfort", 20.0, "common practice, no source")),
    severity=Severity.INJURY,
    constants=(Constant("times_sag", 2.0, "1", "Gere, Mechanics of Materials: a load let go without a drop"),),
    caution="On this build the motor is the brake. A torn lead takes it away without warning, or locks the wheel.",
    remedy_hint="an extension lead, joined inside the sealed box, or a longer loop beside the truck",
    examples=(
        Example(
            "60 mm spare, 6 mm riser",
            {"lead.spare_length": (57.0, 60.0, 63.0), "riser*.thickness": (6.0,), **LEAD},
            "holds",
            22.726,
        ),
        Example(
            "25 mm spare, 6 mm riser",
            {"lead.spare_length": (23.0, 25.0, 27.0), "riser*.thickness": (6.0,), **LEAD},
            "fails",
            -12.274,
            two_numbers="25 mm spare for a 6 mm riser: two numbers say yes",
        ),
        Example(
            "no steer, 5 mm of flex: exactly on the limit",
            {"lead.spare_length": 20.0, **NO_STEER},
            "holds",
            0.0,
        ),
        Example("spare unread", LEAD, "undecided"),
    ),
)
