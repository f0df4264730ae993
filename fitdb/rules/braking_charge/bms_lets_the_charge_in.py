"""A protection board opens when it is charged with more than it allows. In the middle of braking that takes the brake
away at once, and the volts that now have nowhere to go can destroy the controller.
"""

from fitdb.model.rule import NOTHING_TO_GUARD, AtLeast, Bound, Example, NothingToGuard, Rule, Severity


def quantity(
    charge_borne: float, discharge_bypassed: str, charge_asked: float, share: float, other_boards: tuple[float, ...]
) -> float | NothingToGuard:
    if discharge_bypassed == "yes":
        return NOTHING_TO_GUARD
    # Only where every pack has a board of its own does this one let in no more than the share of its pack.
    return charge_borne - (charge_asked * share if other_boards else charge_asked)


RULE = Rule(
    question="Does the BMS let the braking charge in?",
    needs=(
        "bms.braking_charge_borne",
        "bms.discharge_bypassed",
        "controller.braking_charge_asked",
        "own_pack.charge_share",
        "other_bms*.link_current",
    ),
    quantity=quantity,
    measures="current that the BMS lets in on the way the braking charge takes, less its share of what is set",
    formula=(
        "m = I_BMS − k·Σ I_limit·channels, k = R₂/(R₁ + R₂) beside another pack with a board, else 1 (nothing to ask "
        "where the board is by-passed)"
    ),
    unit="A",
    hard=AtLeast(Bound("braking_charge.bms_lets_the_charge_in.least", 0.0, "common practice, no source")),
    severity=Severity.INJURY,
    caution=(
        "On this build the motor is the brake. It can vanish without warning: full pack on a descent, protection"
        " circuit opening. Learn to stop by foot or to step off, leave distance, and do not begin a long descent with a"
        " full pack."
    ),
    remedy_hint="a lower braking-charge limit (the brake weakens), or a board with a stronger charge path",
    examples=(
        Example(
            "a charge path of 10 A, 8 A set",
            {
                "bms.braking_charge_borne": 10.0,
                "bms.discharge_bypassed": "no",
                "controller.braking_charge_asked": 8.0,
                "own_pack.charge_share": 1.0,
            },
            "holds",
            2.0,
        ),
        Example(
            "a common port of 5 A, 8 A set",
            {
                "bms.braking_charge_borne": 5.0,
                "bms.discharge_bypassed": "no",
                "controller.braking_charge_asked": 8.0,
                "own_pack.charge_share": 1.0,
            },
            "fails",
            -3.0,
            two_numbers="the board is sold as 60 A: 60 is more than 8, but its charge path is not its discharge path",
        ),
        Example(
            "a strong board of 20 A beside one of 4 A, 20 A over like packs: this is the weak one",
            {
                "bms.braking_charge_borne": 4.0,
                "bms.discharge_bypassed": "no",
                "controller.braking_charge_asked": 20.0,
                "own_pack.charge_share": 0.5,
                "other_bms*.link_current": (60.0,),
            },
            "fails",
            -6.0,
            two_numbers="both boards together let in 24 A and 20 A are set: two numbers say yes",
        ),
        Example(
            "port layout unknown: 5 A in one case, 60 A in the other",
            {
                "bms.braking_charge_borne": (5.0, 60.0, 60.0),
                "bms.discharge_bypassed": "no",
                "controller.braking_charge_asked": 8.0,
                "own_pack.charge_share": 1.0,
            },
            "undecided",
        ),
        Example(
            "exactly on the limit",
            {
                "bms.braking_charge_borne": 8.0,
                "bms.discharge_bypassed": "no",
                "controller.braking_charge_asked": 8.0,
                "own_pack.charge_share": 1.0,
            },
            "holds",
            0.0,
        ),
        Example(
            "the board is by-passed",
            {
                "bms.braking_charge_borne": 5.0,
                "bms.discharge_bypassed": "yes",
                "controller.braking_charge_asked": 8.0,
                "own_pack.charge_share": 1.0,
            },
            "excused",
        ),
        Example(
            "label unread",
            {
                "bms.discharge_bypassed": "no",
                "controller.braking_charge_asked": 8.0,
                "own_pack.charge_share": 1.0,
            },
            "undecided",
        ),
    ),
)
