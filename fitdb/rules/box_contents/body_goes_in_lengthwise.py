"""Along the way its leads leave, a content needs soft packing at both ends and room for the leads to bend. Where it
fits turned, or all contents are found a place together, that decides instead.
"""

from fitdb.model.rule import AtLeast, Bound, Constant, Example, Rule, Severity


def quantity(cavity: float, body: float, conductive: str, packing: float, lead_room: float, insulation: float) -> float:
    return cavity - body - 2.0 * packing - lead_room - (2.0 * insulation if conductive == "yes" else 0.0)


RULE = Rule(
    question="Does each content go in along the way its leads leave?",
    needs=("enclosure.cavity_length", "body.body_length", "enclosure.conductive"),
    quantity=quantity,
    measures="cavity length less body, packing at both ends and lead room",
    formula="s = L_cavity − L_body − 2·1.5 − 5 (− 4.5 for walls that conduct)",
    unit="mm",
    hard=AtLeast(Bound("box_contents.body_goes_in_lengthwise.least", 0.0, "common practice, no source")),
    severity=Severity.FIRE,
    constants=(
        Constant("packing", 1.5, "mm", "common practice, no source"),
        Constant("lead_room", 5.0, "mm", "common practice, no source"),
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
            "200 mm with room round it",
            {
                "enclosure.cavity_length": (209.5, 210.0, 210.5),
                "body.body_length": (199.5, 200.0, 200.5),
                "enclosure.conductive": "no",
            },
            "holds",
            2.0,
        ),
        Example(
            "a wall that conducts",
            {
                "enclosure.cavity_length": (208.5, 209.0, 209.5),
                "body.body_length": (199.5, 200.0, 200.5),
                "enclosure.conductive": "yes",
            },
            "fails",
            -3.5,
            two_numbers="200 is less than 209: two sizes say yes",
        ),
        Example(
            "exactly on the limit",
            {"enclosure.cavity_length": 208.0, "body.body_length": 200.0, "enclosure.conductive": "no"},
            "holds",
            0.0,
        ),
        Example(
            "nobody knows whether the wall conducts",
            {"enclosure.cavity_length": 210.0, "body.body_length": 200.0, "enclosure.conductive": "yes|no"},
            "undecided",
        ),
        Example("cavity unread", {"body.body_length": 200.0, "enclosure.conductive": "no"}, "undecided"),
    ),
)
