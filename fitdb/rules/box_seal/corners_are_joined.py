"""Strips laid side by side at a corner leave a slit that no screw closes."""

from fitdb.model.rule import Example, OneOf, Rule, Severity


def quantity(joined: str) -> str:
    return joined


RULE = Rule(
    question="Is the gasket one closed ring?",
    needs=("gasket.corners_joined",),
    quantity=quantity,
    measures="whether the ring is closed at its corners",
    formula="corners joined",
    unit="",
    hard=OneOf("box_seal.corners_are_joined", ("yes",), "common practice, no source"),
    severity=Severity.DAMAGE,
    remedy_hint="cut the ring from one sheet, or glue the ends of the strips",
    examples=(
        Example("cut from one sheet", {"gasket.corners_joined": "yes"}, "holds"),
        Example("four strips laid side by side", {"gasket.corners_joined": "no"}, "fails"),
        Example("nobody looked", {"gasket.corners_joined": "yes|no"}, "undecided"),
        Example("unread", {}, "undecided"),
    ),
)
