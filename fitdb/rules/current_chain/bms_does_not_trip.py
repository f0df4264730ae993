"""A protection board has a trip current: when more is drawn than that, it opens within a moment. In the ride that is
drive and brake gone at once, so what the controllers may draw has to stay below it.
"""

from fitdb.model.rule import NOTHING_TO_GUARD, AtLeast, Bound, Example, NothingToGuard, Rule, Severity


def quantity(
    trip_current: float,
    asked: float,
    bypassed: str,
    share: float,
    other_boards: tuple[float, ...],
) -> float | NothingToGuard:
    if bypassed == "yes":
        return NOTHING_TO_GUARD
    return trip_current - (asked * share if other_boards else asked)


RULE = Rule(
    question="Does the protection board stay closed at the asked current?",
    needs=(
        "bms.trip_current",
        "pack.asked_current",
        "bms.discharge_bypassed",
        "pack.current_share",
        "other_bms*.link_current",
    ),
    quantity=quantity,
    measures="current at which the board opens, less what the controllers may draw through it",
    formula="m = I_trip − I_ask·k, k = 1 or R₂/(R₁ + R₂) where each pack has its own",
    unit="A",
    hard=AtLeast(Bound("current_chain.bms_does_not_trip.least", 0.0, "common practice, no source")),
    severity=Severity.INJURY,
    excused_by="current_chain.bms_carries_the_current",
    caution=(
        "On this build the motor is the brake. It can vanish without warning: a protection circuit that opens takes "
        "drive and brake at once. Learn to stop by foot or to step off, and leave distance."
    ),
    remedy_hint="a lower pack current in the settings: less pull at speed",
    examples=(
        Example(
            "trips at 160 A, 80 A asked",
            {
                "bms.trip_current": 160.0,
                "pack.asked_current": 80.0,
                "bms.discharge_bypassed": "no",
                "pack.current_share": 1.0,
            },
            "holds",
            80.0,
        ),
        Example(
            "trips at 60 A, 80 A asked",
            {
                "bms.trip_current": 60.0,
                "pack.asked_current": 80.0,
                "bms.discharge_bypassed": "no",
                "pack.current_share": 1.0,
            },
            "fails",
            -20.0,
        ),
        Example(
            "exactly on the limit",
            {
                "bms.trip_current": 60.0,
                "pack.asked_current": 60.0,
                "bms.discharge_bypassed": "no",
                "pack.current_share": 1.0,
            },
            "holds",
            0.0,
        ),
        Example(
            "trip current unread",
            {"pack.asked_current": 60.0, "bms.discharge_bypassed": "no", "pack.current_share": 1.0},
            "undecided",
        ),
    ),
)
