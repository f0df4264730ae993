"""A protection board opens when it is charged with more than it allows. In the middle of braking that takes the brake
away at once, and the volts that now have nowhere to go can destroy the controller.
"""

from fitdb.model.rule import NOTHING_TO_GUARD, AtLeast, Bound, Example, NothingToGuard, Rule, Severity


def quantity(charge_borne: float, discharge_bypassed: str, charge_asked: float) -> float | NothingToGuard:
    return NOTHING_TO_GUARD if discharge_bypassed == "yes" else charge_borne - charge_asked


RULE = Rule(
    question="Does the BMS let the braking charge in?",
    needs=("bms.braking_charge_borne", "bms.discharge_bypassed", "controller.braking_charge_asked"),
    quantity=quantity,
    measures="current that the BMS lets in on the way the braking charge takes, less the braking charge that is set",
    formula="m = I_BMS − Σ I_limit·channels (nothing to ask where the board is by-passed)",
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
            },
            "fails",
            -3.0,
            two_numbers="the board is sold as 60 A: 60 is more than 8, but its charge path is not its discharge path",
        ),
        Example(
            "port layout unknown: 5 A in one case, 60 A in the other",
            {
                "bms.braking_charge_borne": (5.0, 60.0, 60.0),
                "bms.discharge_bypassed": "no",
                "controller.braking_charge_asked": 8.0,
            },
            "undecided",
        ),
        Example(
            "exactly on the limit",
            {
                "bms.braking_charge_borne": 8.0,
                "bms.discharge_bypassed": "no",
                "controller.braking_charge_asked": 8.0,
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
            },
            "excused",
        ),
        Example(
            "label unread",
            {"bms.discharge_bypassed": "no", "controller.braking_charge_asked": 8.0},
            "undecided",
        ),
    ),
)
