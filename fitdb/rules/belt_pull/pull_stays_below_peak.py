"""A belt carries so much pull per millimetre of width, and less when few teeth are in mesh. Beyond its peak it skips or
tears, and it does so under full power or full brake.
"""

from fitdb.formulas.belts import mesh_factor
from fitdb.model.rule import AtLeast, Bound, Example, Published, Rule, Severity, Shape


def quantity(width: float, allowed_pull: float, mesh: float, pull: float) -> float:
    return width * allowed_pull * mesh_factor(mesh) - pull


RULE = Rule(
    question="Does the belt bear the pull at the greatest motor current?",
    needs=("belt.width", "belt.allowed_pull_per_width", "belt.teeth_in_mesh", "belt.pull"),
    quantity=quantity,
    measures="peak pull that the belt bears, few teeth in mesh taken off, less the pull asked of it",
    formula="m = w·q·k_mesh − F, k = 1.0, 0.8, 0.6 for 6, 5, 4 teeth in mesh",
    unit="N",
    hard=AtLeast(Bound("belt_pull.pull_stays_below_peak.least", 0.0, "common practice, no source")),
    severity=Severity.INJURY,
    shape=Shape.SAMPLED,
    published=(
        Published(
            "allowed working tension of rubber belts with glass cord, 25.4 mm wide: 285 N at 3 mm, 454 N at 5 mm, "
            "792 N "
            "at 8 mm pitch (11, 18, 31 N/mm); modified curvilinear 507 N at 3 mm, 712 N at 5 mm (20, 28 N/mm)",
            "a timing-belt design handbook",
        ),
        Published("the factor k for teeth in mesh", "a belt maker's engineering page (2012)"),
    ),
    caution=(
        "On this build the motor is the brake. A belt that skips is a brake that is gone: learn to stop by foot, and "
        "leave distance."
    ),
    remedy_hint="less motor current, more teeth on the motor pulley, or a wider belt",
    examples=(
        Example(
            "15 mm belt, five teeth in mesh, 50 A through a 190 rpm/V motor on 14 teeth",
            {
                "belt.width": (14.7, 15.0, 15.3),
                "belt.allowed_pull_per_width": 30.0,
                "belt.teeth_in_mesh": 5,
                "belt.pull": 225.56,
            },
            "holds",
            134.44,
        ),
        Example(
            "9 mm belt on the same drive",
            {
                "belt.width": 9.0,
                "belt.allowed_pull_per_width": 30.0,
                "belt.teeth_in_mesh": 5,
                "belt.pull": 225.56,
            },
            "fails",
            -9.56,
            two_numbers="9 mm bear 270 N and 226 are asked: comparing two numbers says yes",
        ),
        Example(
            "exactly on the limit",
            {
                "belt.width": 15.0,
                "belt.allowed_pull_per_width": 30.0,
                "belt.teeth_in_mesh": 6,
                "belt.pull": 450.0,
            },
            "holds",
            0.0,
        ),
        Example(
            "current of the motor unread",
            {"belt.width": 15.0, "belt.allowed_pull_per_width": 30.0, "belt.teeth_in_mesh": 6},
            "undecided",
        ),
    ),
)
