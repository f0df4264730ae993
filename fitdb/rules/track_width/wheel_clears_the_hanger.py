"""The wheel's inner half reaches over the end of the hanger, where the hanger is slim. Further in the hanger grows, and
a wide wheel or an inward core rubs on it.
"""

from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity


def quantity(inner_face: float, hanger_width: float, clear_length: float) -> float:
    return inner_face - (hanger_width / 2.0 - clear_length)


RULE = Rule(
    question="Does the wheel's inner face stay clear of the thick part of the hanger?",
    needs=("wheel.inner_face", "hanger.hanger_width", "hanger.clear_length"),
    quantity=quantity,
    measures="wheel's inner face less the place where the hanger's slim end begins",
    formula="c = y_in − (W/2 − clear length)",
    unit="mm",
    hard=AtLeast(Bound("track_width.wheel_clears_the_hanger.least", 0.0, "common practice, no source")),
    severity=Severity.DAMAGE,
    remedy_hint="a longer spacer between hanger and wheel, if the axle is long enough",
    examples=(
        Example(
            "wheel from 92 mm on, hanger 180 mm with 25 mm of slim end",
            {"wheel.inner_face": (91.0, 92.0, 93.0), "hanger.hanger_width": 180.0, "hanger.clear_length": 25.0},
            "holds",
            27.0,
        ),
        Example(
            "wide tyre pulled in by its core",
            {"wheel.inner_face": 68.0, "hanger.hanger_width": 184.0, "hanger.clear_length": 20.0},
            "fails",
            -4.0,
            two_numbers="a 60 mm tyre on a 60 mm axle: comparing width and axle length says yes",
        ),
        Example(
            "exactly on the limit",
            {"wheel.inner_face": 70.0, "hanger.hanger_width": 180.0, "hanger.clear_length": 20.0},
            "holds",
            0.0,
        ),
        Example("clear length unread", {"wheel.inner_face": 92.0, "hanger.hanger_width": 180.0}, "undecided"),
    ),
)
