"""Across its leads a content needs soft packing on both sides. Where it fits turned, or all contents are found a place
together, that decides instead.
"""

from fitdb.model.rule import AtLeast, Bound, Constant, Example, Rule, Severity


def quantity(cavity: float, body: float, conductive: str, packing: float, insulation: float) -> float:
    return cavity - body - 2.0 * packing - (2.0 * insulation if conductive == "yes" else 0.0)


RULE = Rule(
    question="Does each content go in across its leads?",
    needs=("enclosure.cavity_width", "body.body_width", "enclosure.conductive"),
    quantity=quantity,
    measures="cavity width less body and packing on both sides",
    formula="s = W_cavity − W_body − 2·1.5 (− 4.5 for walls that conduct)",
    unit="mm",
    hard=AtLeast(Bound("box_contents.body_goes_in_sideways.least", 0.0, "common practice, no source")),
    severity=Severity.FIRE,
    constants=(
        Constant("packing", 1.5, "mm", "common practice, no source"),
        Constant("insulation", 2.25, "mm", "common practice, no source: fibre paper and foam on a conducting wall"),
    ),
    caution=(
        "No clamping load on cells. A wall that conducts: bare wire or worn sleeve against it is a short circuit."
        " Insulate every wall and measure before joining the pack."
    ),
    excused_by="box_contents.contents_go_in_together",
    remedy_hint="another layout, a spacer frame, or a smaller pack",
    examples=(
        Example(
            "140 mm with room round it",
            {
                "enclosure.cavity_width": (144.5, 145.0, 145.5),
                "body.body_width": (139.5, 140.0, 140.5),
                "enclosure.conductive": "no",
            },
            "holds",
            2.0,
        ),
        Example(
            "a wall that conducts",
            {
                "enclosure.cavity_width": (143.5, 144.0, 144.5),
                "body.body_width": (139.5, 140.0, 140.5),
                "enclosure.conductive": "yes",
            },
            "fails",
            -3.5,
            two_numbers="140 is less than 144: two sizes say yes",
        ),
        Example(
            "exactly on the limit",
            {"enclosure.cavity_width": 143.0, "body.body_width": 140.0, "enclosure.conductive": "no"},
            "holds",
            0.0,
        ),
        Example(
            "nobody knows whether the wall conducts",
            {"enclosure.cavity_width": 145.0, "body.body_width": 140.0, "enclosure.conductive": "yes|no"},
            "undecided",
        ),
        Example("cavity unread", {"body.body_width": 140.0, "enclosure.conductive": "no"}, "undecided"),
    ),
)
