"""Both bushings together have to be as tall as the truck was made for. Taller ones push the hanger out of its pivot,
lower ones leave it rattling.
"""

from fitdb.model.rule import Between, Bound, Example, Rule, Severity


def quantity(total_height: float, seat_height: float) -> float:
    return total_height - seat_height


RULE = Rule(
    question="Are the bushings together as tall as the truck's seat for them?",
    needs=("bushing.total_height", "truck.seat_height"),
    quantity=quantity,
    measures="height of both bushings less the height the truck leaves for them",
    formula="Δ = h_bushings − h_seat",
    unit="mm",
    hard=Between(
        Bound("bushings.bushings_fill_the_seat.low", -1.5, "common practice, no source"),
        Bound("bushings.bushings_fill_the_seat.high", 1.5, "common practice, no source"),
    ),
    severity=Severity.INJURY,
    caution=(
        "Changed bushings change how quickly it steers. Start at walking pace; raise the speed in small "
        "steps on an empty, smooth place."
    ),
    remedy_hint="washers under lower bushings; another set for taller ones",
    two_numbers_suffice="one height against one height; the spread of both readings is all there is to it",
    examples=(
        Example(
            "28.0 mm in a seat of 28.5 mm",
            {"bushing.total_height": (27.7, 28.0, 28.3), "truck.seat_height": (28.0, 28.5, 29.0)},
            "holds",
            1.0,
        ),
        Example("31 mm in a seat of 27 mm", {"bushing.total_height": 31.0, "truck.seat_height": 27.0}, "fails", -2.5),
        Example("exactly on the limit", {"bushing.total_height": 28.5, "truck.seat_height": 27.0}, "holds", 0.0),
        Example("seat unread", {"bushing.total_height": 28.0}, "undecided"),
    ),
)
