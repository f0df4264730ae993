"""An open motor throws water through its windings and bearings; grit goes with it. It does not die at once, but it
does.
"""

from fitdb.model.rule import Example, OneOf, Published, Rule, Severity


def quantity(wet: str, first: str, every: tuple[str, ...]) -> tuple[str, ...]:
    return (first, *every) if wet == "yes" else ("dry_route",)


RULE = Rule(
    question="Do the motors bear a wet route?",
    # The first is asked by itself, so that nothing is said of a board that has none.
    needs=("route.wet", "motor.water_protection", "motor*.water_protection"),
    quantity=quantity,
    measures="protection of the motors, each of them, where the route is ridden wet",
    formula="each ∈ {splash, jet}",
    unit="",
    hard=OneOf("water.motors_bear_water.words", ("dry_route", "splash", "jet"), "common practice, no source"),
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
    remedy_hint="motors with closed cans, or covers; dry them and oil their bearings after rain",
    two_numbers_suffice="words are compared, and the weakest decides",
    examples=(
        Example("wet, splash", {"route.wet": "yes", "motor.water_protection": "splash"}, "holds"),
        Example("dry, none", {"route.wet": "no", "motor.water_protection": "none"}, "holds"),
        Example("wet, none", {"route.wet": "yes", "motor.water_protection": "none"}, "fails"),
        Example(
            "wet, the second one none",
            {"route.wet": "yes", "motor.water_protection": "splash", "motor*.water_protection": ("splash", "none")},
            "fails",
        ),
        Example("nobody looked", {"route.wet": "yes"}, "undecided"),
    ),
)
