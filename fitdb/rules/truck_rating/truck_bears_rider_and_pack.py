"""Trucks are rated for the mass that stands on the pair. Rider and pack count together; a rating that nobody found
stays open, because a truck that was never rated may have been made for a child.
"""

from fitdb.model.rule import AtLeast, Bound, Example, Published, Rule, Severity


def quantity(rating: float, rider: float, packs: tuple[float, ...]) -> float:
    return rating - rider - sum(packs)


RULE = Rule(
    question="Do the trucks bear rider and pack?",
    needs=("truck.mass_rating", "rider.mass", "pack*.mass"),
    quantity=quantity,
    measures="mass that the maker allows less rider and packs",
    formula="Δm = m_allowed − m_rider − Σ m_pack",
    unit="kg",
    hard=AtLeast(Bound("truck_rating.truck_bears_rider_and_pack.least", 0.0, "common practice, no source")),
    severity=Severity.INJURY,
    published=(
        Published(
            "boards without a motor: class A for riders over 20 to 100 kg, class B over 20 to 50 kg",
            "EN 13613:2009, scope",
        ),
    ),
    caution=(
        "A rating says nothing of wear, cracks or welds. Look at hangers, kingpins and plates before each ride; if you "
        "are not sure, have a qualified person look."
    ),
    remedy_hint="another truck is another plan; nothing makes a truck bear more than its maker says",
    examples=(
        Example(
            "80 kg and a pack of 3 kg on a rating of 120",
            {"truck.mass_rating": 120.0, "rider.mass": (78.0, 80.0, 82.0), "pack*.mass": (3.0,)},
            "holds",
            37.0,
        ),
        Example(
            "98 kg and two packs on a rating of 100",
            {"truck.mass_rating": 100.0, "rider.mass": (97.5, 98.0, 98.5), "pack*.mass": (2.0, 2.0)},
            "fails",
            -2.0,
            two_numbers="98 kg of rider against 100: comparing two numbers says yes, the packs ride too",
        ),
        Example(
            "exactly on the limit", {"truck.mass_rating": 100.0, "rider.mass": 97.0, "pack*.mass": (3.0,)}, "holds", 0.0
        ),
        Example("unrated", {"rider.mass": 60.0, "pack*.mass": (2.0,)}, "undecided"),
    ),
)
