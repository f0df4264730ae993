"""A ceiling stands for what the rider can stop from, or for what local rules leave. It is held against the fastest
moment of the ride, just off the charger, and not against the middle of the pack.
"""

from fitdb.model.rule import NOTHING_TO_GUARD, AtLeast, Bound, Example, NothingToGuard, Rule, Severity


def quantity(fastest: float, ceiling: float) -> float | NothingToGuard:
    # A ceiling of 0 is none: there is nothing to ask.
    return ceiling - fastest if ceiling > 0 else NOTHING_TO_GUARD


RULE = Rule(
    question="Does the board stay under the speed ceiling?",
    needs=("drive.fastest_speed", "wish.speed_ceiling"),
    quantity=quantity,
    measures="ceiling less the speed just off the charger",
    formula="Δv = v_ceiling − v_fastest",
    unit="km/h",
    hard=AtLeast(Bound("ride_speed.speed_stays_under_the_ceiling.least", 0.0, "common practice, no source")),
    severity=Severity.INJURY,
    caution=(
        "Start at walking pace and raise the speed in small steps on an empty, smooth place. If it starts to weave, do "
        "not brake hard: weight forward, ease off. Helmet always, of a kind meant for your speed."
    ),
    remedy_hint="a speed ceiling set in the controller, or a larger ratio",
    examples=(
        Example(
            "23 km/h at most", {"drive.fastest_speed": (22.0, 23.0, 24.0), "wish.speed_ceiling": 25.0}, "holds", 2.0
        ),
        Example(
            "fast off the charger",
            {"drive.fastest_speed": (26.0, 27.0, 28.0), "wish.speed_ceiling": 25.0},
            "fails",
            -2.0,
            two_numbers="23.4 km/h through the middle of the pack: comparing it with 25 says yes",
        ),
        Example("exactly on the limit", {"drive.fastest_speed": 25.0, "wish.speed_ceiling": 25.0}, "holds", 0.0),
        Example("no ceiling", {"drive.fastest_speed": 47.0, "wish.speed_ceiling": 0.0}, "excused"),
        Example("speed not worked out", {"wish.speed_ceiling": 25.0}, "undecided"),
    ),
)
