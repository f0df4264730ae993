"""Diodes keep one pack from charging the other, and they keep the brake from charging either. The charge has nowhere to
go: the brake is gone, or the volts rise until the controller dies.
"""

from fitdb.model.rule import Example, OneOf, Rule, Severity


def quantity(coupling: str) -> str:
    return coupling


RULE = Rule(
    question="Does the braking charge find its way back into this pack?",
    needs=("pack.coupling",),
    quantity=quantity,
    measures="how this pack is joined to the rail",
    formula="leads, not diodes",
    unit="",
    hard=OneOf("packs_in_parallel.coupling_lets_the_charge_back", ("leads",), "common practice, no source"),
    severity=Severity.INJURY,
    caution=(
        "On this build the motor is the brake, and diodes block it. Learn to stop by foot or to step off, and leave"
        " distance."
    ),
    remedy_hint="join like packs by leads at the same rest volts, each with its own fuse",
    examples=(
        Example("joined by leads", {"pack.coupling": "leads"}, "holds"),
        Example("joined through diodes", {"pack.coupling": "diodes"}, "fails"),
        Example("nobody looked", {"pack.coupling": "leads|diodes"}, "undecided"),
        Example("unread", {}, "undecided"),
    ),
)
