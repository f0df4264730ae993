"""The pulley's inner end must stay clear of the motor mount. A longer spacer on the shoulder moves wheel and pulley
out, an adapter plate between them moves the pulley in.
"""

from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity


def quantity(
    inner_face: float,
    hanger_width: float,
    axial_length: float,
    plates: tuple[float, ...],
    outer_face_inset: float,
) -> float:
    return inner_face - 0.5 * hanger_width - axial_length - sum(plates) + outer_face_inset


RULE = Rule(
    question="Is there air between the pulley and the motor mount?",
    needs=(
        "wheel.inner_face",
        "hanger.hanger_width",
        "pulley.axial_length",
        "lug_plate*.axial_thickness",
        "motor_mount.outer_face_inset",
    ),
    quantity=quantity,
    measures="gap between the pulley's inner end and the mount's outer face",
    formula="y_in − W/2 − l_pulley − Σ plates + inset",
    unit="mm",
    hard=AtLeast(Bound("pulley_over_hanger.pulley_clears_the_mount.least", 1.5, "common practice, no source")),
    severity=Severity.DAMAGE,
    caution="Turn the wheel by hand and push it sideways both ways before power.",
    examples=(
        Example(
            "wheel face 22 mm out, 20 mm pulley, mount 2 mm in",
            {
                "wheel.inner_face": 112.0,
                "hanger.hanger_width": 180.0,
                "pulley.axial_length": 20.0,
                "motor_mount.outer_face_inset": 2.0,
            },
            "holds",
            2.5,
        ),
        Example(
            "exactly on the limit",
            {
                "wheel.inner_face": 112.0,
                "hanger.hanger_width": 180.0,
                "pulley.axial_length": 20.5,
                "motor_mount.outer_face_inset": 0.0,
            },
            "holds",
            0.0,
        ),
        Example(
            "the same with a 6 mm lug plate",
            {
                "wheel.inner_face": 112.0,
                "hanger.hanger_width": 180.0,
                "pulley.axial_length": 20.0,
                "lug_plate*.axial_thickness": (6.0,),
                "motor_mount.outer_face_inset": 2.0,
            },
            "fails",
            -3.5,
            two_numbers="a 20 mm pulley in 22 mm: comparing two numbers says yes",
        ),
        Example(
            "mount unread",
            {"wheel.inner_face": 112.0, "hanger.hanger_width": 180.0, "pulley.axial_length": 20.0},
            "undecided",
        ),
    ),
)
