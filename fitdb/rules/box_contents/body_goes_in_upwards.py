"""Under the deck a content needs soft packing below and above, and a heat pad or plate takes its thickness as well. A
frame between box and deck adds its own. A box that is screwed up against cells clamps them.
"""

from fitdb.model.rule import AtLeast, Bound, Constant, Example, Rule, Severity


def quantity(
    cavity: float, body: float, conductive: str, pads: tuple[float, ...], packing: float, insulation: float
) -> float:
    return cavity - body - 2.0 * packing - sum(pads) - (2.0 * insulation if conductive == "yes" else 0.0)


RULE = Rule(
    question="Does each content go in under the deck or lid?",
    needs=("enclosure.inner_height", "body.body_height", "enclosure.conductive", "thermal_pad*.thickness"),
    quantity=quantity,
    measures="height inside, frames included, less body, pads and packing on both sides",
    formula="s = H − H_body − Σ pads − 2·1.5 (− 4.5 for walls that conduct)",
    unit="mm",
    hard=AtLeast(Bound("box_contents.body_goes_in_upwards.least", 0.0, "common practice, no source")),
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
            "27 mm with room round it",
            {
                "enclosure.inner_height": (31.5, 32.0, 32.5),
                "body.body_height": (26.5, 27.0, 27.5),
                "enclosure.conductive": "no",
            },
            "holds",
            2.0,
        ),
        Example(
            "a wall that conducts",
            {
                "enclosure.inner_height": (30.5, 31.0, 31.5),
                "body.body_height": (26.5, 27.0, 27.5),
                "enclosure.conductive": "yes",
            },
            "fails",
            -3.5,
            two_numbers="27 is less than 31: two sizes say yes",
        ),
        Example(
            "exactly on the limit",
            {"enclosure.inner_height": 30.0, "body.body_height": 27.0, "enclosure.conductive": "no"},
            "holds",
            0.0,
        ),
        Example(
            "nobody knows whether the wall conducts",
            {"enclosure.inner_height": 32.0, "body.body_height": 27.0, "enclosure.conductive": "yes|no"},
            "undecided",
        ),
        Example("cavity unread", {"body.body_height": 27.0, "enclosure.conductive": "no"}, "undecided"),
    ),
)
