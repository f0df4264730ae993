"""A clamp grips by lying against the hanger. A round clamp touches a six-sided hanger on six thin lines only, and lets
go when the brake pulls: there is no squeezing that makes up for the wrong form.
"""

from fitdb.model.rule import Example, Rule, Same, Severity


def quantity(profile: str, clamp: str) -> tuple[str, str]:
    return profile, clamp


RULE = Rule(
    question="Has the clamp the form of the hanger?",
    needs=("hanger.form", "motor_mount.clamp_form"),
    quantity=quantity,
    measures="form of the hanger's cross-section under the clamp, and form of the clamp's bore",
    formula="form_profile = form_bore",
    unit="",
    hard=Same("clamp_profile.form_is_the_same", "common practice, no source"),
    severity=Severity.INJURY,
    caution="A mount that turns on the hanger drops the motor on the ground and locks the wheel.",
    remedy_hint="a clamp made for this hanger, or a shell between with a wall of 3 mm or more",
    examples=(
        Example("round on round", {"hanger.form": "round", "motor_mount.clamp_form": "round"}, "holds"),
        Example(
            "a 32 mm round clamp on a hanger that is 31.5 mm across its flats",
            {"hanger.form": "hexagon", "motor_mount.clamp_form": "round"},
            "fails",
            two_numbers="31.5 is less than 32: comparing two sizes says yes",
        ),
        Example(
            "a house-shaped hanger, taken for a D on a photograph",
            {"hanger.form": "trapezoid|d_shape", "motor_mount.clamp_form": "trapezoid"},
            "undecided",
        ),
        Example("form of the hanger not looked at", {"motor_mount.clamp_form": "round"}, "undecided"),
    ),
)
