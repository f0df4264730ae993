"""A gasket wider than the rim is pressed on its inner part only and creeps out; one that hangs over the edge is caught
by the road.
"""

from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity


def quantity(rim_width: float, gasket_width: float) -> float:
    return rim_width - gasket_width


RULE = Rule(
    question="Does the gasket lie on the rim over its whole width?",
    needs=("enclosure.rim_width", "gasket.width"),
    quantity=quantity,
    measures="rim width less gasket width",
    formula="s = w_rim − w_gasket",
    unit="mm",
    hard=AtLeast(Bound("box_seal.gasket_lies_on_the_rim.least", 0.0, "plane geometry")),
    severity=Severity.DAMAGE,
    remedy_hint="a narrower gasket",
    examples=(
        Example(
            "10 mm strip on a 15 mm rim",
            {"enclosure.rim_width": (14.5, 15.0, 15.5), "gasket.width": 10.0},
            "holds",
            5.0,
        ),
        Example(
            "12 mm strip on a 10 mm rim",
            {"enclosure.rim_width": (9.5, 10.0, 10.5), "gasket.width": 12.0},
            "fails",
            -2.0,
        ),
        Example("exactly on the limit", {"enclosure.rim_width": 10.0, "gasket.width": 10.0}, "holds", 0.0),
        Example("rim unread", {"gasket.width": 10.0}, "undecided"),
    ),
)
