"""A collar with air in its bore lets the pulley hang off centre by half of that air, and the belt feels all of it."""

from fitdb.model.rule import NOTHING_TO_GUARD, AtMost, Bound, Example, NothingToGuard, Rule, Severity


def quantity(centre_bore: float, spigot_diameter: float, carried_by: tuple[str, ...]) -> float | NothingToGuard:
    if carried_by and carried_by[0] != "wheel":
        return NOTHING_TO_GUARD
    return centre_bore - spigot_diameter


RULE = Rule(
    question="Does the collar sit in the bore without air?",
    needs=("wheel.centre_bore", "pulley.spigot_diameter", "pulley*.carried_by"),
    quantity=quantity,
    measures="bore of the wheel (or ring) less collar; none where the pulley has a bearing of its own",
    formula="D_bore − D_collar",
    unit="mm",
    hard=AtMost(Bound("centring.collar_is_snug.most", 0.1, "common practice, no source")),
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
            0.09,
        ),
        Example(
            "exactly on the limit",
            {"wheel.centre_bore": 28.1, "pulley.spigot_diameter": 28.0, "pulley*.carried_by": ("wheel",)},
            "holds",
            0.0,
        ),
        Example(
            "27.5 mm collar in a 28 mm bore",
            {"wheel.centre_bore": 28.0, "pulley.spigot_diameter": 27.5, "pulley*.carried_by": ("wheel",)},
            "fails",
            -0.4,
            two_numbers="27.5 is less than 28: comparing two numbers says yes",
        ),
        Example("collar unread", {"wheel.centre_bore": 28.0, "pulley*.carried_by": ("wheel",)}, "undecided"),
    ),
)
