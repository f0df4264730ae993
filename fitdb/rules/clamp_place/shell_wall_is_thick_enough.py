"""A shell turns one form into another and passes the whole torque on. Thinner than 3 mm it bends open in the split of
the clamp, or cracks, and the mount turns on it.
"""

from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity


def quantity(wall: float) -> float:
    return wall


RULE = Rule(
    question="Is the wall of the shell thick enough?",
    needs=("mount_shell.wall_thickness",),
    quantity=quantity,
    measures="thinnest wall of the shell between hanger and clamp",
    formula="t_wall",
    unit="mm",
    hard=AtLeast(Bound("clamp_place.shell_wall_is_thick_enough.least", 3.0, "common practice, no source")),
    severity=Severity.INJURY,
    caution="A shell holds by friction alone: secure it with a screw, and look at it after 1, 10, 100 km.",
    remedy_hint="a clamp with a larger bore leaves room for a thicker wall",
    two_numbers_suffice="one thickness against one limit",
    examples=(
        Example("3.5 mm at the flats", {"mount_shell.wall_thickness": (3.4, 3.5, 3.6)}, "holds", 0.5),
        Example("exactly on the limit", {"mount_shell.wall_thickness": 3.0}, "holds", 0.0),
        Example("1.5 mm at the corners", {"mount_shell.wall_thickness": 1.5}, "fails", -1.5),
        Example("read with a ruler", {"mount_shell.wall_thickness": (2.7, 3.2, 3.7)}, "undecided", 0.2),
        Example("wall unread", {}, "undecided"),
    ),
)
