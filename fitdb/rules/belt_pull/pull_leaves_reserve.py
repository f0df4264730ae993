"""A belt that works at its peak wears out in weeks. Two thirds of the peak, 20 instead of 30 N per millimetre at 5 mm
pitch, is what lasts; below that the rule only adds a word of caution.
"""

from fitdb.formulas.belts import mesh_factor
from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity, Shape


def quantity(width: float, allowed_pull: float, mesh: float, pull: float) -> float:
    return width * allowed_pull * mesh_factor(mesh) / pull


RULE = Rule(
    question="Does the pull leave the belt some reserve?",
    needs=("belt.width", "belt.allowed_pull_per_width", "belt.teeth_in_mesh", "belt.pull"),
    quantity=quantity,
    measures="peak pull that the belt bears, over the pull asked of it",
    formula="n = w·q·k_mesh / F",
    unit="",
    hard=AtLeast(Bound("belt_pull.pull_leaves_reserve.least", 1.0, "common practice, no source")),
    comfort=AtLeast(Bound("belt_pull.pull_leaves_reserve.comfort", 1.5, "common practice, no source")),
    severity=Severity.DAMAGE,
    shape=Shape.SAMPLED,
    remedy_hint="a wider belt, or less motor current",
    examples=(
        Example(
            "15 mm belt at 226 N",
            {
                "belt.width": 15.0,
                "belt.allowed_pull_per_width": 30.0,
                "belt.teeth_in_mesh": 6,
                "belt.pull": 225.56,
            },
            "holds",
            0.995,
        ),
        Example(
            "9 mm belt with four teeth in mesh",
            {
                "belt.width": 9.0,
                "belt.allowed_pull_per_width": 30.0,
                "belt.teeth_in_mesh": 4,
                "belt.pull": 200.0,
            },
            "fails",
            -0.19,
        ),
        Example(
            "exactly on the limit",
            {
                "belt.width": 15.0,
                "belt.allowed_pull_per_width": 30.0,
                "belt.teeth_in_mesh": 5,
                "belt.pull": 360.0,
            },
            "holds",
            0.0,
        ),
        Example(
            "pull unread",
            {"belt.width": 15.0, "belt.allowed_pull_per_width": 30.0, "belt.teeth_in_mesh": 6},
            "undecided",
        ),
    ),
)
