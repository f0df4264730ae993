"""Blocks of one form come in sizes for 30, 60 and 90 A that look alike in a picture. The distance of their contacts
tells them apart, and the outside of a single bullet.
"""

from fitdb.model.rule import NOTHING_TO_GUARD, Between, Bound, Example, NothingToGuard, Rule, Severity


def quantity(
    near_form: str, near_pitch: float, far_pitch: float, near_section: float, far_section: float
) -> float | NothingToGuard:
    if near_form == "bare_end":
        return NOTHING_TO_GUARD
    return near_section - far_section if near_form == "single_bullet" else near_pitch - far_pitch


RULE = Rule(
    question="Are both plugs of one size?",
    needs=("near.plug_form", "near.pin_pitch", "far.pin_pitch", "near.section_a", "far.section_a"),
    quantity=quantity,
    measures="distance of the contacts (of single bullets their outer diameter) on one side less that on the other",
    formula="d = p_pack side − p_other",
    unit="mm",
    hard=Between(
        Bound("power_plugs.size_equal.least", -0.5, "common practice, no source"),
        Bound("power_plugs.size_equal.most", 0.5, "common practice, no source"),
    ),
    severity=Severity.DAMAGE,
    remedy_hint="an adapter lead, or the same connector on both sides",
    examples=(
        Example(
            "two blocks of the 60 A size",
            {
                "near.plug_form": "two_pole_block",
                "near.pin_pitch": (7.1, 7.2, 7.3),
                "far.pin_pitch": (7.1, 7.2, 7.3),
                "near.section_a": 16.0,
                "far.section_a": 16.0,
            },
            "holds",
            0.5,
        ),
        Example(
            "a 60 A block before a 90 A block",
            {
                "near.plug_form": "two_pole_block",
                "near.pin_pitch": (7.1, 7.2, 7.3),
                "far.pin_pitch": (10.8, 10.9, 11.0),
                "near.section_a": 16.0,
                "far.section_a": 21.2,
            },
            "fails",
            -3.2,
            two_numbers="two poles and two poles: the counts agree",
        ),
        Example(
            "exactly on the limit",
            {
                "near.plug_form": "two_pole_block",
                "near.pin_pitch": 7.5,
                "far.pin_pitch": 7.0,
                "near.section_a": 16.0,
                "far.section_a": 16.0,
            },
            "holds",
            0.0,
        ),
        Example(
            "far side unread",
            {"near.plug_form": "two_pole_block", "near.pin_pitch": 7.2, "near.section_a": 16.0, "far.section_a": 16.0},
            "undecided",
        ),
    ),
)
