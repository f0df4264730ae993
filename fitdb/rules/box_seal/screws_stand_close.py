"""Between two screws the rim bows away from the deck and the gasket is pressed least. The closer the screws, the better
it seals.
"""

from fitdb.model.rule import AtMost, Bound, Example, Rule, Severity


def quantity(pitch: float) -> float:
    return pitch


RULE = Rule(
    question="Do the screws stand close enough to press the gasket all round?",
    needs=("enclosure.screw_pitch",),
    quantity=quantity,
    measures="greatest distance between two neighbouring screws",
    formula="p",
    unit="mm",
    hard=AtMost(Bound("box_seal.screws_stand_close.most", 80.0, "common practice, no source")),
    comfort=AtMost(Bound("box_seal.screws_stand_close.comfort", 60.0, "common practice, no source")),
    severity=Severity.DAMAGE,
    remedy_hint="more screws and inserts, or a stiff strip over the rim",
    examples=(
        Example("screws 55 mm apart", {"enclosure.screw_pitch": (54.0, 55.0, 56.0)}, "holds", 25.0),
        Example("screws 120 mm apart", {"enclosure.screw_pitch": (119.0, 120.0, 121.0)}, "fails", -40.0),
        Example("exactly on the limit", {"enclosure.screw_pitch": 80.0}, "holds", 0.0),
        Example("pitch unread", {}, "undecided"),
    ),
)
