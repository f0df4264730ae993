"""Even where the cells bear the current, a plug that joins two packs a volt apart sparks, and the spark eats it. Good
practice joins them at no more than 0.2 V.
"""

from fitdb.model.rule import NOTHING_TO_GUARD, AtMost, Bound, Example, NothingToGuard, Rule, Severity


def quantity(rest_volts: float, other_rest_volts: float, coupling: str) -> float | NothingToGuard:
    return NOTHING_TO_GUARD if coupling == "diodes" else other_rest_volts - rest_volts


RULE = Rule(
    question="Are the packs close enough in volts to be joined?",
    needs=("pack.rest_volts", "other_pack.rest_volts", "pack.coupling"),
    quantity=quantity,
    measures="rest volts of the other pack above those of this one; the other way round is asked of the other",
    formula="ΔV = V₂ − V₁",
    unit="V",
    hard=AtMost(Bound("packs_in_parallel.rest_volts_are_close.most", 1.0, "common practice, no source")),
    comfort=AtMost(Bound("packs_in_parallel.rest_volts_are_close.comfort", 0.2, "common practice, no source")),
    severity=Severity.DAMAGE,
    caution="Meter from plus to plus with the minus leads joined: that reads the difference itself.",
    remedy_hint="bring both to the same rest volts, each with its own charger, before joining",
    examples=(
        Example(
            "0.1 V apart",
            {"pack.rest_volts": 45.7, "other_pack.rest_volts": 45.8, "pack.coupling": "leads"},
            "holds",
            0.9,
        ),
        Example(
            "6 V apart",
            {"pack.rest_volts": 43.2, "other_pack.rest_volts": 49.2, "pack.coupling": "leads"},
            "fails",
            -5.0,
        ),
        Example(
            "exactly on the limit",
            {"pack.rest_volts": 44.0, "other_pack.rest_volts": 45.0, "pack.coupling": "leads"},
            "holds",
            0.0,
        ),
        Example(
            "two readings of a coarse meter",
            {
                "pack.rest_volts": (44.0, 44.5, 45.0),
                "other_pack.rest_volts": (44.6, 45.1, 45.6),
                "pack.coupling": "leads",
            },
            "undecided",
        ),
        Example("rest volts unread", {"other_pack.rest_volts": 45.8, "pack.coupling": "leads"}, "undecided"),
    ),
)
