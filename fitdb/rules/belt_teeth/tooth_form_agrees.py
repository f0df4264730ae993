"""Equal pitch is not enough: round and straight-sided teeth of 5 mm do not seat in each other's grooves. Such a belt
runs for a while on its tips, and jumps when the brake pulls hardest.
"""

from fitdb.model.rule import Example, Published, Rule, Same, Severity


def quantity(drive_side: str, driven_side: str) -> tuple[str, str]:
    return drive_side, driven_side


RULE = Rule(
    question="Do both have the same tooth form?",
    needs=("drive_side.tooth_form", "driven_side.tooth_form"),
    quantity=quantity,
    measures="tooth form of both parts",
    formula="form_1 = form_2",
    unit="",
    hard=Same("belt_teeth.tooth_form_agrees", "common practice, no source"),
    severity=Severity.DAMAGE,
    published=(
        Published("curvilinear profiles", "ISO 13050"),
        Published("trapezoidal profiles, another tooth at the same pitch", "ISO 5296"),
    ),
    remedy_hint="replace one side; nothing goes between",
    examples=(
        Example(
            "curvilinear on curvilinear",
            {"drive_side.tooth_form": "curvilinear_5", "driven_side.tooth_form": "curvilinear_5"},
            "holds",
        ),
        Example(
            "a trapezoidal belt on a curvilinear pulley",
            {"drive_side.tooth_form": "curvilinear_5", "driven_side.tooth_form": "trapezoidal_5"},
            "fails",
            two_numbers="5 mm and 5 mm pitch: comparing two numbers says yes",
        ),
        Example(
            "form of the pulley not known for certain",
            {
                "drive_side.tooth_form": "curvilinear_5|modified_curvilinear_5",
                "driven_side.tooth_form": "curvilinear_5",
            },
            "undecided",
        ),
        Example("form of one side unread", {"drive_side.tooth_form": "curvilinear_5"}, "undecided"),
    ),
)
