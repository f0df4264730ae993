"""The pulley's collar must slide into the wheel's bore by hand. A pulley with a bearing of its own has no collar to
enter.
"""

from fitdb.model.rule import NOTHING_TO_GUARD, AtLeast, Bound, Example, NothingToGuard, Rule, Severity


def quantity(centre_bore: float, spigot_diameter: float, carried_by: tuple[str, ...]) -> float | NothingToGuard:
    if carried_by and carried_by[0] != "wheel":
        return NOTHING_TO_GUARD
    return centre_bore - spigot_diameter


RULE = Rule(
    question="Does the pulley's collar slide into the wheel?",
    needs=("wheel.centre_bore", "pulley.spigot_diameter", "pulley*.carried_by"),
    quantity=quantity,
    measures="bore of the wheel (or ring) less collar; none where the pulley has a bearing of its own",
    formula="D_bore − D_collar",
    unit="mm",
    hard=AtLeast(Bound("centring.collar_enters.least", 0.0, "common practice, no source")),
    severity=Severity.DAMAGE,
    examples=(
        Example(
            "28 mm collar, turned",
            {
                "wheel.centre_bore": (28.0, 28.0, 28.021),
                "pulley.spigot_diameter": (27.98, 27.99, 27.993),
                "pulley*.carried_by": ("wheel",),
            },
            "holds",
            0.01,
        ),
        Example(
            "exactly on the limit",
            {"wheel.centre_bore": 28.0, "pulley.spigot_diameter": 28.0, "pulley*.carried_by": ("wheel",)},
            "holds",
            0.0,
        ),
        Example(
            "28.2 mm collar",
            {"wheel.centre_bore": 28.0, "pulley.spigot_diameter": 28.2, "pulley*.carried_by": ("wheel",)},
            "fails",
            -0.2,
        ),
        Example(
            "bearing of its own",
            {"wheel.centre_bore": 28.0, "pulley.spigot_diameter": 30.0, "pulley*.carried_by": ("own_bearing",)},
            "excused",
        ),
        Example("bore unread", {"pulley.spigot_diameter": 28.0, "pulley*.carried_by": ("wheel",)}, "undecided"),
    ),
)
