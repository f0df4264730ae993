"""The outer face of the cover stands close to the turning wheel. A cover that touches is worn through, and rattles."""

from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity


def quantity(inner_face: float, hanger_width: float, outer_face_inset: float, outer_reach: float) -> float:
    return inner_face - (hanger_width / 2.0 - outer_face_inset + outer_reach)


RULE = Rule(
    question="Does the cover stay clear of the wheel?",
    needs=("wheel.inner_face", "hanger.hanger_width", "motor_mount.outer_face_inset", "belt_cover.outer_reach"),
    quantity=quantity,
    measures="gap between the outer face of the cover and the inner face of the wheel",
    formula="s = y_wheel − (W/2 − inset + reach of the cover)",
    unit="mm",
    hard=AtLeast(Bound("belt_cover.cover_clears_the_wheel.least", 3.0, "common practice, no source")),
    severity=Severity.NUISANCE,
    caution=(
        "Without a cover a turning belt draws in fingers, laces and hair. Wheels up on a firm stand, hands away, and "
        "unplug the pack before touching belt, pulley or motor."
    ),
    remedy_hint="a flatter cover; a longer inner spacer (look at the axle's thread again)",
    examples=(
        Example(
            "wheel from 92 mm, plate at 68 mm, cover reaches 20 mm out",
            {
                "wheel.inner_face": (91.5, 92.0, 92.5),
                "hanger.hanger_width": 180.0,
                "motor_mount.outer_face_inset": (21.9, 22.0, 22.1),
                "belt_cover.outer_reach": 20.0,
            },
            "holds",
            1.0,
        ),
        Example(
            "exactly on the limit",
            {
                "wheel.inner_face": 92.0,
                "hanger.hanger_width": 180.0,
                "motor_mount.outer_face_inset": 22.0,
                "belt_cover.outer_reach": 21.0,
            },
            "holds",
            0.0,
        ),
        Example(
            "the same cover on a mount that stands further out",
            {
                "wheel.inner_face": 92.0,
                "hanger.hanger_width": 180.0,
                "motor_mount.outer_face_inset": 19.0,
                "belt_cover.outer_reach": 20.0,
            },
            "fails",
            -2.0,
            two_numbers="the cover ends at 91 mm and the wheel begins at 92: comparing two places says yes",
        ),
        Example(
            "inset of the mount unread",
            {"wheel.inner_face": 92.0, "hanger.hanger_width": 180.0, "belt_cover.outer_reach": 20.0},
            "undecided",
        ),
    ),
)
