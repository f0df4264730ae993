"""The charge port is a hole that leads to the pack. Without a cap the wheels throw water straight into it."""

from fitdb.model.rule import Example, OneOf, Rule, Severity


def quantity(wet: str, first: str, every: tuple[str, ...]) -> tuple[str, ...]:
    return (first, *every) if wet == "yes" else ("dry_route",)


RULE = Rule(
    question="Is the charge port capped on a wet route?",
    # The first is asked by itself, so that nothing is said of a board that has none.
    needs=("route.wet", "charge_port.cap", "charge_port*.cap"),
    quantity=quantity,
    measures="cap of the charge port, each of them, where the route is ridden wet",
    formula="each ∈ {yes}",
    unit="",
    hard=OneOf("water.charge_port_is_capped.words", ("dry_route", "yes"), "common practice, no source"),
    severity=Severity.DAMAGE,
    caution=(
        "No opened and re-closed box is waterproof until tested. Wet brakes and tyres double the way to stop. A wet "
        "pack: do not charge, do not ride, put it outdoors away from anything that burns."
    ),
    remedy_hint="a cap, or a port at the side that the wheels do not throw at",
    two_numbers_suffice="words are compared, and the weakest decides",
    examples=(
        Example("wet, yes", {"route.wet": "yes", "charge_port.cap": "yes"}, "holds"),
        Example("dry, no", {"route.wet": "no", "charge_port.cap": "no"}, "holds"),
        Example("wet, no", {"route.wet": "yes", "charge_port.cap": "no"}, "fails"),
        Example(
            "wet, the second one no",
            {"route.wet": "yes", "charge_port.cap": "yes", "charge_port*.cap": ("yes", "no")},
            "fails",
        ),
        Example("nobody looked", {"route.wet": "yes"}, "undecided"),
    ),
)
