"""The small pulley holds the belt by the few teeth that are in its grooves at one time. With fewer than four the belt
climbs out and skips, and it does so in the moment when the brake pulls hardest.
"""

from fitdb.model.rule import AtLeast, Bound, Example, Published, Rule, Severity, Shape


def quantity(mesh: float) -> float:
    return float(mesh)


RULE = Rule(
    question="Are enough teeth of the small pulley in mesh?",
    needs=("belt.teeth_in_mesh",),
    quantity=quantity,
    measures="whole teeth in mesh on the smaller pulley",
    formula="z_m = ⌊z·wrap/360°⌋",
    unit="",
    hard=AtLeast(Bound("belt_pull.enough_teeth_mesh.least", 4, "common practice, no source")),
    comfort=AtLeast(Bound("belt_pull.enough_teeth_mesh.comfort", 6, "a belt maker's engineering page (2012)")),
    severity=Severity.INJURY,
    shape=Shape.STEPPED,
    published=(
        Published(
            "full rating from 6 teeth in mesh, 20 % less for each one missing; at least 60° of wrap",
            "a belt maker's engineering page (2012)",
        ),
        Published(
            "smallest pulleys made: 10 teeth at 3 mm, 12 at 5 mm, 22 at 8 mm pitch", "what range makers cut, ISO 13050"
        ),
    ),
    caution=(
        "On this build the motor is the brake. It can vanish without warning when the belt skips: learn to stop "
        "by foot "
        "or to step off, and leave distance."
    ),
    remedy_hint="more teeth on the motor pulley, or an idler on the slack side; the slack side changes under braking",
    examples=(
        Example("15 and 36 teeth, 265 mm", {"belt.teeth_in_mesh": 6}, "holds", 2),
        Example("exactly on the limit", {"belt.teeth_in_mesh": 4}, "holds", 0),
        Example(
            "10 teeth against 66, close together",
            {"belt.teeth_in_mesh": 3},
            "fails",
            -1,
            two_numbers="the pulley has 10 teeth: comparing its count with 4 says yes",
        ),
        Example("centre distance too rough to tell", {"belt.teeth_in_mesh": {3, 4}}, "undecided"),
        Example("drive unread", {}, "undecided"),
    ),
)
