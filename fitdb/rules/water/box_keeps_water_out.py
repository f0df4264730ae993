"""Water in the box is a short circuit on a pack that cannot be switched off. A box that was opened and closed again is
only as tight as its last gasket.
"""

from fitdb.model.rule import Example, OneOf, Published, Rule, Severity


def quantity(wet: str, first: str, every: tuple[str, ...]) -> tuple[str, ...]:
    return (first, *every) if wet == "yes" else ("dry_route",)


RULE = Rule(
    question="Does the box keep water out on a wet route?",
    # The first is asked by itself, so that nothing is said of a board that has none.
    needs=("route.wet", "enclosure.water_protection", "enclosure*.water_protection"),
    quantity=quantity,
    measures="protection of the box, each of them, where the route is ridden wet",
    formula="each ∈ {splash, jet}",
    unit="",
    hard=OneOf("water.box_keeps_water_out.words", ("dry_route", "splash", "jet"), "common practice, no source"),
    severity=Severity.DAMAGE,
    published=(
        Published(
            "splashing from every side: second digit 4; jets: 5",
            "IEC 60529, degrees of protection by enclosures, from memory",
        ),
    ),
    caution=(
        "No opened and re-closed box is waterproof until tested. Wet brakes and tyres double the way to stop. A wet "
        "pack: do not charge, do not ride, put it outdoors away from anything that burns."
    ),
    remedy_hint="a closed gasket, glands for every lead, and a test with the garden hose before anything is in it",
    two_numbers_suffice="words are compared, and the weakest decides",
    examples=(
        Example("wet, splash", {"route.wet": "yes", "enclosure.water_protection": "splash"}, "holds"),
        Example("dry, drops", {"route.wet": "no", "enclosure.water_protection": "drops"}, "holds"),
        Example("wet, drops", {"route.wet": "yes", "enclosure.water_protection": "drops"}, "fails"),
        Example(
            "wet, the second one drops",
            {
                "route.wet": "yes",
                "enclosure.water_protection": "splash",
                "enclosure*.water_protection": ("splash", "drops"),
            },
            "fails",
        ),
        Example("nobody looked", {"route.wet": "yes"}, "undecided"),
    ),
)
