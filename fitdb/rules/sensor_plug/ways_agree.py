"""A plug with five ways in a housing of six sits one pin off as easily as it sits right."""

from fitdb.model.rule import Between, Bound, Example, Rule, Severity, Shape


def quantity(motor_side: int, controller_side: int) -> float:
    return float(motor_side - controller_side)


RULE = Rule(
    question="Do the sensor plugs have the same number of ways?",
    needs=("motor_side.ways", "controller_side.ways"),
    quantity=quantity,
    measures="ways toward the motor less ways toward the controller",
    formula="Δ = n_motor − n_controller",
    unit="",
    hard=Between(
        Bound("sensor_plug.ways_agree.least", 0, "common practice, no source"),
        Bound("sensor_plug.ways_agree.most", 0, "common practice, no source"),
    ),
    severity=Severity.DAMAGE,
    shape=Shape.STEPPED,
    excused_by="sensor_plug.motor_runs_without_its_sensors",
    remedy_hint="a lead from one plug to the other, metered pin by pin; or run without sensors",
    examples=(
        Example("six and six, exactly on the limit", {"motor_side.ways": 6, "controller_side.ways": 6}, "holds", 0),
        Example(
            "five in six",
            {"motor_side.ways": 5, "controller_side.ways": 6},
            "fails",
            -1,
            two_numbers="5 contacts are no more than 6: comparing two counts says yes",
        ),
        Example("not counted", {"controller_side.ways": 6}, "undecided"),
    ),
)
