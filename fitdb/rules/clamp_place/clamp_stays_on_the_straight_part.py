"""The belt line says how far in from the shoulder the mount's plate stands. Pushed in that far, the clamp must still
lie on the straight part: beyond it the hanger swells, and a clamp that sits on the swelling grips by one edge.
"""

from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity


def quantity(clear_length: float, outer_face_inset: float, clamp_width: float) -> float:
    return clear_length - outer_face_inset - clamp_width


RULE = Rule(
    question="Does the whole clamp lie on the straight part when the mount stands where the belt line wants it?",
    needs=("hanger.clear_length", "motor_mount.outer_face_inset", "motor_mount.clamp_width"),
    quantity=quantity,
    measures="straight length left inboard of the clamp",
    formula="s = clear length − inset of the outer face − clamp width",
    unit="mm",
    hard=AtLeast(Bound("clamp_place.clamp_stays_on_the_straight_part.least", 0.0, "common practice, no source")),
    severity=Severity.DAMAGE,
    remedy_hint="a narrower clamp; a mount whose plate stands nearer to the shoulder",
    examples=(
        Example(
            "20 mm clamp, 5 mm in from the shoulder, 28 mm of straight hanger",
            {
                "hanger.clear_length": (27.5, 28.0, 28.5),
                "motor_mount.outer_face_inset": (4.5, 5.0, 5.5),
                "motor_mount.clamp_width": 20.0,
            },
            "holds",
            3.0,
        ),
        Example(
            "exactly on the limit",
            {"hanger.clear_length": 26.0, "motor_mount.outer_face_inset": 6.0, "motor_mount.clamp_width": 20.0},
            "holds",
            0.0,
        ),
        Example(
            "the same clamp 9 mm in",
            {"hanger.clear_length": 26.0, "motor_mount.outer_face_inset": 9.0, "motor_mount.clamp_width": 20.0},
            "fails",
            -3.0,
            two_numbers="20 is less than 26: comparing clamp and straight part says yes",
        ),
        Example("inset unread", {"hanger.clear_length": 26.0, "motor_mount.clamp_width": 20.0}, "undecided"),
    ),
)
