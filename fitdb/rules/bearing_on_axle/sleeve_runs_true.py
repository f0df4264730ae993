"""A sleeve whose outside does not run true with its bore makes the wheel wobble at every turn."""

from fitdb.model.rule import AtMost, Bound, Example, Rule, Severity


def quantity(run_out: float) -> float:
    return run_out


RULE = Rule(
    question="Does the sleeve run true?",
    needs=("hanger.run_out",),
    quantity=quantity,
    measures="whole swing of the sleeve's outside about its bore",
    formula="run-out",
    unit="mm",
    hard=AtMost(Bound("bearing_on_axle.sleeve_runs_true.most", 0.03, "common practice, no source")),
    severity=Severity.INJURY,
    caution="A wheel that runs out of true works its nut loose. Check nut and play after 1, 10 and 100 km.",
    two_numbers_suffice="one reading against a limit",
    examples=(
        Example("turned sleeve", {"hanger.run_out": (0.005, 0.01, 0.015)}, "holds", 0.02),
        Example("exactly on the limit", {"hanger.run_out": 0.03}, "holds", 0.0),
        Example("piece of tube", {"hanger.run_out": 0.1}, "fails", -0.07),
        Example("not measured", {}, "undecided"),
    ),
)
