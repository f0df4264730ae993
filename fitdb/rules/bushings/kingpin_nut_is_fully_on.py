"""The kingpin nut carries the hanger. At least one full turn of thread has to show beyond it with the bushings in
place; a nut that hangs on by half its nylon backs off, and the hanger falls out.
"""

from fitdb.formulas.kingpin import thread_pitch
from fitdb.model.rule import AtLeast, Bound, Constant, Example, Rule, Severity


def quantity(free_length: float, total_height: float, thread: str, nut_height: float, turns: float) -> float:
    return free_length - total_height - nut_height - turns * thread_pitch(thread)


RULE = Rule(
    question="Does at least one turn of thread show beyond the kingpin nut?",
    needs=("truck.kingpin_free_length", "bushing.total_height", "truck.kingpin_thread"),
    quantity=quantity,
    measures="kingpin left beyond bushings, nut and one turn of thread",
    formula="s = L_kingpin − h_bushings − nut − 1·P",
    unit="mm",
    hard=AtLeast(Bound("bushings.kingpin_nut_is_fully_on.least", 0.0, "common practice, no source")),
    severity=Severity.INJURY,
    constants=(
        Constant("nut_height", 8.0, "mm", "common practice, no source"),
        Constant("turns", 1.0, "1", "common practice, no source"),
    ),
    caution="The nut's nylon ring must be fully on the thread. New nut after a few uses. Check after 1, 10 and 100 km.",
    remedy_hint="lower bushings or a longer kingpin",
    examples=(
        Example(
            "39 mm of kingpin, 28 mm of bushings, 3/8-24",
            {
                "truck.kingpin_free_length": (38.5, 39.0, 39.5),
                "bushing.total_height": (27.7, 28.0, 28.3),
                "truck.kingpin_thread": "unf_3_8_24",
            },
            "holds",
            1.94,
        ),
        Example(
            "tall bushings on the same kingpin",
            {"truck.kingpin_free_length": 37.0, "bushing.total_height": 28.5, "truck.kingpin_thread": "m10"},
            "fails",
            -1.0,
            two_numbers="37 is more than 28.5 and 8 together: the nut goes on, but no turn shows beyond it",
        ),
        Example(
            "exactly on the limit",
            {"truck.kingpin_free_length": 37.5, "bushing.total_height": 28.0, "truck.kingpin_thread": "m10"},
            "holds",
            0.0,
        ),
        Example("kingpin unread", {"bushing.total_height": 28.0, "truck.kingpin_thread": "unf_3_8_24"}, "undecided"),
    ),
)
