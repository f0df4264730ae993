"""A full pack takes no charge, and then the motor brakes hardly at all: the first descent of the day is ridden without
a brake. A rider who stops by foot from any speed that is ridden has the second way to stop that every board needs.
"""

from fitdb.model.rule import Example, OneOf, Rule, Severity


def quantity(skill: str) -> str:
    return skill


RULE = Rule(
    question="Can the rider stop without the motor, as on a full pack?",
    needs=("rider.skill",),
    quantity=quantity,
    measures="skill of the rider",
    formula="skill ∈ {practised, expert}",
    unit="",
    hard=OneOf(
        "ride_brake.rider_can_stop_without_the_motor.words", ("practised", "expert"), "common practice, no source"
    ),
    severity=Severity.INJURY,
    caution=(
        "On this build the motor is the brake. It can vanish without warning: belt skip, full pack on a descent, "
        "protection circuit opening, link loss, over-heat. Learn to stop by foot or to step off, leave distance, and "
        "do not begin a long descent with a full pack. Wet brakes and tyres double the way to stop."
    ),
    remedy_hint="learn to stop by foot on an empty, flat place before the first fast ride",
    examples=(
        Example("stops by foot from any speed ridden", {"rider.skill": "practised"}, "holds"),
        Example("first ten hours", {"rider.skill": "beginner"}, "fails"),
        Example("beginner or practised, nobody said", {"rider.skill": "beginner|practised"}, "undecided"),
        Example("skill unread", {}, "undecided"),
    ),
)
