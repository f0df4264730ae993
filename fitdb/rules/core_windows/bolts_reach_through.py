"""A bolt has to pass flange, core and far-side plate and still fill its nut with one turn showing."""

from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity


def quantity(bolt_length: float, core_width: float, clamped_thickness: float) -> float:
    return bolt_length - core_width - clamped_thickness


RULE = Rule(
    question="Are the bolts long enough to go through the core?",
    needs=("pulley.bolt_length", "wheel.core_width", "pulley.clamped_thickness"),
    quantity=quantity,
    measures="bolt left over after core, flange, plate, nut and one turn",
    formula="L − w_core − t",
    unit="mm",
    hard=AtLeast(Bound("core_windows.bolts_reach_through.least", 0.0, "common practice, no source")),
    severity=Severity.INJURY,
    caution="The nuts' nylon rings must be fully on the threads. Check them after 1, 10 and 100 km.",
    examples=(
        Example(
            "65 mm bolt through a 46 mm rim",
            {"pulley.bolt_length": 65.0, "wheel.core_width": 46.0, "pulley.clamped_thickness": 16.0},
            "holds",
            3.0,
        ),
        Example(
            "exactly on the limit",
            {"pulley.bolt_length": 62.0, "wheel.core_width": 46.0, "pulley.clamped_thickness": 16.0},
            "holds",
            0.0,
        ),
        Example(
            "50 mm bolt through a 46 mm rim",
            {"pulley.bolt_length": 50.0, "wheel.core_width": 46.0, "pulley.clamped_thickness": 16.0},
            "fails",
            -12.0,
            two_numbers="50 is more than 46: comparing bolt and core says yes",
        ),
        Example("core unread", {"pulley.bolt_length": 65.0, "pulley.clamped_thickness": 16.0}, "undecided"),
    ),
)
