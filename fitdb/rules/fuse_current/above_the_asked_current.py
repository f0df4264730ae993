"""The fuse has to be a quarter above what the controllers may draw. A setting of
20 A for each motor counts as 40 A with two motors."""

from fitdb.model.rule import AtLeast, Bound, Constant, Example, Rule, Severity


def quantity(
    rated_current: float,
    asked: float,
    share: float,
    other_fuses: tuple[float, ...],
    over: float,
) -> float:
    return rated_current - over * (asked * share if other_fuses else asked)


RULE = Rule(
    question="Is the fuse a quarter above the asked current?",
    needs=(
        "fuse.rated_current",
        "pack.asked_current",
        "pack.current_share",
        "other_fuse*.rated_current",
    ),
    quantity=quantity,
    measures="rated current of the fuse, less 1.25 times what the controllers may draw through it",
    formula="m = I_fuse − 1.25·I_ask·k, k = 1 or R₂/(R₁ + R₂) where each pack has its own",
    unit="A",
    hard=AtLeast(Bound("fuse_current.above_the_asked_current.least", 0.0, "common practice, no source")),
    severity=Severity.INJURY,
    constants=(Constant("over", 1.25, "1", "common practice, no source"),),
    caution=(
        "On this build the motor is the brake. A fuse that blows in the ride takes it away. Never bridge a fuse, and "
        "never put in one above what the thinnest lead behind it bears."
    ),
    remedy_hint="a lower pack current in the settings, or a larger fuse where the leads bear it",
    examples=(
        Example(
            "60 A fuse, 40 A asked",
            {"fuse.rated_current": 60.0, "pack.asked_current": 40.0, "pack.current_share": 1.0},
            "holds",
            10.0,
        ),
        Example(
            "40 A fuse, 40 A asked",
            {"fuse.rated_current": 40.0, "pack.asked_current": 40.0, "pack.current_share": 1.0},
            "fails",
            -10.0,
            two_numbers="40 A and 40 A: the numbers agree",
        ),
        Example(
            "exactly on the limit",
            {"fuse.rated_current": 50.0, "pack.asked_current": 40.0, "pack.current_share": 1.0},
            "holds",
            0.0,
        ),
        Example(
            "two like packs, a fuse each",
            {
                "fuse.rated_current": 40.0,
                "pack.asked_current": 60.0,
                "pack.current_share": 0.5,
                "other_fuse*.rated_current": (40.0,),
            },
            "holds",
            2.5,
        ),
        Example(
            "two like packs behind one fuse",
            {
                "fuse.rated_current": 40.0,
                "pack.asked_current": 60.0,
                "pack.current_share": 0.5,
            },
            "fails",
            -35.0,
        ),
        Example("fuse unread", {"pack.asked_current": 40.0, "pack.current_share": 1.0}, "undecided"),
    ),
)
