"""A bullet of another diameter does not go in, or hangs in its socket on two springs, arcs and melts its sleeve."""

from fitdb.model.rule import Between, Bound, Example, Rule, Severity


def quantity(motor_side: float, controller_side: float) -> float:
    return motor_side - controller_side


RULE = Rule(
    question="Are the bullets of one diameter?",
    needs=("motor_side.bullet_diameter", "controller_side.bullet_diameter"),
    quantity=quantity,
    measures="bullet toward the motor less bullet toward the controller, diameters",
    formula="Δ = d_motor − d_controller",
    unit="mm",
    hard=Between(
        Bound("phase_bullets.diameters_agree.least", -0.2, "common practice, no source"),
        Bound("phase_bullets.diameters_agree.most", 0.2, "common practice, no source"),
    ),
    severity=Severity.NUISANCE,
    remedy_hint="bullets of one size soldered on, or short leads from one size to the other",
    examples=(
        Example(
            "4 mm on 4 mm",
            {"motor_side.bullet_diameter": (3.95, 4.0, 4.05), "controller_side.bullet_diameter": (3.95, 4.0, 4.05)},
            "holds",
            0.2,
        ),
        Example(
            "a 3.5 mm bullet in a 4 mm socket",
            {"motor_side.bullet_diameter": 3.5, "controller_side.bullet_diameter": 4.0},
            "fails",
            -0.3,
            two_numbers="3.5 is less than 4.0, so it goes in: comparing two numbers says yes",
        ),
        Example(
            "exactly on the limit",
            {"motor_side.bullet_diameter": 4.2, "controller_side.bullet_diameter": 4.0},
            "holds",
            0.0,
        ),
        Example("controller unread", {"motor_side.bullet_diameter": 4.0}, "undecided"),
    ),
)
