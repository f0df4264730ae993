"""The moment two packs are joined, the fuller one charges the emptier one with nothing but their resistances to hold
the current back. Six volts apart drive 26 A into cells that may take 12 A, and keep doing so for minutes.
"""

from fitdb.formulas.pack_flow import equalising_current
from fitdb.model.rule import NOTHING_TO_GUARD, AtLeast, Bound, Example, NothingToGuard, Rule, Severity, Shape


def quantity(
    parallel: int,
    cell_charge_current: float,
    rest_volts: float,
    other_rest_volts: float,
    resistance: float,
    other_resistance: float,
    coupling: str,
) -> float | NothingToGuard:
    if coupling == "diodes":
        return NOTHING_TO_GUARD
    return parallel * cell_charge_current - equalising_current(
        other_rest_volts, rest_volts, other_resistance, resistance
    )


RULE = Rule(
    question="Do the cells take the current that flows when the packs are joined?",
    needs=(
        "pack.parallel",
        "pack.cell_charge_current",
        "pack.rest_volts",
        "other_pack.rest_volts",
        "pack.resistance",
        "other_pack.resistance",
        "pack.coupling",
    ),
    quantity=quantity,
    measures="charging current that this pack takes, less what the other drives into it at the moment of joining",
    formula="m = P·I_cell − (V₂ − V₁)/(R₁ + R₂) (a pack behind diodes takes none)",
    unit="A",
    hard=AtLeast(Bound("packs_in_parallel.equalising_current_is_borne.least", 0.0, "common practice, no source")),
    severity=Severity.FIRE,
    shape=Shape.SAMPLED,
    caution=(
        "A lithium pack cannot be switched off. Treat its terminals as live at all times. Take off rings and watch;"
        " cover every open terminal. Meter both packs after an hour of rest, plus to plus, before joining them."
    ),
    remedy_hint="bring both to the same rest volts, each with its own charger, before joining",
    examples=(
        Example(
            "0.2 V apart",
            {
                "pack.parallel": 3,
                "pack.cell_charge_current": 4.0,
                "pack.rest_volts": 45.6,
                "other_pack.rest_volts": 45.8,
                "pack.resistance": 95.0,
                "other_pack.resistance": 135.0,
                "pack.coupling": "leads",
            },
            "holds",
            11.13,
        ),
        Example(
            "6 V apart, this pack the emptier",
            {
                "pack.parallel": 3,
                "pack.cell_charge_current": 4.0,
                "pack.rest_volts": (43.1, 43.2, 43.3),
                "other_pack.rest_volts": (49.1, 49.2, 49.3),
                "pack.resistance": 95.0,
                "other_pack.resistance": 135.0,
                "pack.coupling": "leads",
            },
            "fails",
            -14.087,
            two_numbers="12 cells in series on both labels: yes, but equal in name is not equal in state",
        ),
        Example(
            "6 V apart, this pack the fuller",
            {
                "pack.parallel": 2,
                "pack.cell_charge_current": 4.0,
                "pack.rest_volts": 49.2,
                "other_pack.rest_volts": 43.2,
                "pack.resistance": 135.0,
                "other_pack.resistance": 95.0,
                "pack.coupling": "leads",
            },
            "holds",
            34.087,
        ),
        Example(
            "behind diodes",
            {
                "pack.parallel": 3,
                "pack.cell_charge_current": 4.0,
                "pack.rest_volts": 43.2,
                "other_pack.rest_volts": 49.2,
                "pack.resistance": 95.0,
                "other_pack.resistance": 135.0,
                "pack.coupling": "diodes",
            },
            "excused",
        ),
        Example(
            "exactly on the limit",
            {
                "pack.parallel": 2,
                "pack.cell_charge_current": 5.0,
                "pack.rest_volts": 44.0,
                "other_pack.rest_volts": 46.0,
                "pack.resistance": 100.0,
                "other_pack.resistance": 100.0,
                "pack.coupling": "leads",
            },
            "holds",
            0.0,
        ),
        Example(
            "rest volts unread",
            {
                "pack.parallel": 3,
                "pack.cell_charge_current": 4.0,
                "other_pack.rest_volts": 49.2,
                "pack.resistance": 95.0,
                "other_pack.resistance": 135.0,
                "pack.coupling": "leads",
            },
            "undecided",
        ),
    ),
)
