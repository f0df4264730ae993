"""A fuse that carries its rated current day after day ages and blows in the ride; four fifths of it is what it carries
for good. A blown fuse in mid-ride is a lost brake.
"""

from fitdb.model.rule import AtLeast, Bound, Constant, Example, Rule, Severity


def quantity(
    rated_current: float,
    asked: float,
    share: float,
    other_fuses: tuple[float, ...],
    over: float,
) -> float:
    return rated_current / over - (asked * share if other_fuses else asked)


RULE = Rule(
    question="Does the main fuse carry the current that is asked, for good?",
    needs=(
        "fuse.rated_current",
        "pack.asked_current",
        "pack.current_share",
        "other_fuse*.rated_current",
    ),
    quantity=quantity,
    measures="rated current of the fuse over 1.25, less what the controllers may draw through it",
    formula="m = I_fuse/1.25 − I_ask·k, k = 1 or R₂/(R₁ + R₂) where each pack has its own",
    unit="A",
    hard=AtLeast(Bound("current_chain.fuse_leaves_the_current.least", 0.0, "common practice, no source")),
    severity=Severity.INJURY,
    constants=(Constant("over", 1.25, "1", "common practice, no source"),),
    caution=(
        "On this build the motor is the brake. A fuse that blows in the ride takes it away. Never bridge a fuse, and "
        "never put in one above what the thinnest lead behind it bears."
    ),
    remedy_hint="a lower pack current in the settings, or a larger fuse where the leads bear it",
    examples=(
        Example(
            "80 A fuse, 60 A asked",
            {"fuse.rated_current": 80.0, "pack.asked_current": 60.0, "pack.current_share": 1.0},
            "holds",
            4.0,
        ),
        Example(
            "40 A fuse, 35 A asked",
            {"fuse.rated_current": 40.0, "pack.asked_current": 35.0, "pack.current_share": 1.0},
            "fails",
            -3.0,
            two_numbers="40 A > 35 A: a comparison of two numbers says yes",
        ),
        Example(
            "exactly on the limit",
            {"fuse.rated_current": 50.0, "pack.asked_current": 40.0, "pack.current_share": 1.0},
            "holds",
            0.0,
        ),
        Example("fuse unread", {"pack.asked_current": 40.0, "pack.current_share": 1.0}, "undecided"),
    ),
)
