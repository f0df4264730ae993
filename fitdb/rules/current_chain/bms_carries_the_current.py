"""The protection board opens when more is drawn than it bears. On the road that is a dead motor in mid-ride, and with
it a dead brake.
"""

from fitdb.model.rule import NOTHING_TO_GUARD, AtLeast, Bound, Example, NothingToGuard, Rule, Severity


def quantity(
    link_current: float,
    asked: float,
    bypassed: str,
    share: float,
    other_boards: tuple[float, ...],
) -> float | NothingToGuard:
    if bypassed == "yes":
        return NOTHING_TO_GUARD
    # Only where every pack has a board of its own does this one carry no more than the share of its pack.
    return link_current - (asked * share if other_boards else asked)


RULE = Rule(
    question="Does the protection board carry the current that is asked?",
    needs=(
        "bms.link_current",
        "pack.asked_current",
        "bms.discharge_bypassed",
        "pack.current_share",
        "other_bms*.link_current",
    ),
    quantity=quantity,
    measures="continuous current of the board, less what the controllers may draw through it",
    formula="m = I_bms − I_ask·k, k = 1 or R₂/(R₁ + R₂) where each pack has its own",
    unit="A",
    hard=AtLeast(Bound("current_chain.bms_carries_the_current.least", 0.0, "common practice, no source")),
    severity=Severity.INJURY,
    caution=(
        "On this build the motor is the brake. It can vanish without warning: a protection circuit that opens takes "
        "drive and brake at once. Learn to stop by foot or to step off, and leave distance."
    ),
    remedy_hint="a lower pack current in the settings: less pull at speed",
    examples=(
        Example(
            "60 A board, 40 A asked",
            {
                "bms.link_current": 60.0,
                "pack.asked_current": 40.0,
                "bms.discharge_bypassed": "no",
                "pack.current_share": 1.0,
            },
            "holds",
            20.0,
        ),
        Example(
            "30 A board, two controllers of 30 A each",
            {
                "bms.link_current": 30.0,
                "pack.asked_current": 60.0,
                "bms.discharge_bypassed": "no",
                "pack.current_share": 1.0,
            },
            "fails",
            -30.0,
            two_numbers="30 A on the board and 30 A in the settings: the numbers agree",
        ),
        Example(
            "exactly on the limit",
            {
                "bms.link_current": 60.0,
                "pack.asked_current": 60.0,
                "bms.discharge_bypassed": "no",
                "pack.current_share": 1.0,
            },
            "holds",
            0.0,
        ),
        Example(
            "two like packs, a board each",
            {
                "bms.link_current": 30.0,
                "pack.asked_current": 50.0,
                "bms.discharge_bypassed": "no",
                "pack.current_share": 0.5,
                "other_bms*.link_current": (30.0,),
            },
            "holds",
            5.0,
        ),
        Example(
            "discharge by-passed",
            {
                "bms.link_current": 30.0,
                "pack.asked_current": 60.0,
                "bms.discharge_bypassed": "yes",
                "pack.current_share": 1.0,
            },
            "excused",
        ),
        Example(
            "board unread",
            {"pack.asked_current": 60.0, "bms.discharge_bypassed": "no", "pack.current_share": 1.0},
            "undecided",
        ),
    ),
)
