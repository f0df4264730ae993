"""The nut has to be wholly on the thread with one turn beyond it, or its nylon ring holds nothing and the wheel
comes off.

Every part that is put between shoulder and nut, an adapter plate too, is paid for here.
"""

from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity


def quantity(axle_length: float, stack: float, nut_height: float, pitch: float) -> float:
    return axle_length - stack - nut_height - pitch


RULE = Rule(
    question="Is the axle long enough for all that goes on it?",
    needs=("hanger.axle_length", "axle_nut.stack", "axle_nut.height", "hanger.thread_pitch"),
    quantity=quantity,
    measures="axle left over beyond stack, nut and one turn of thread",
    formula="L − Σ − h_nut − P",
    unit="mm",
    hard=AtLeast(Bound("axle_stack.axle_takes_the_nut.least", 0.0, "common practice, no source")),
    comfort=AtLeast(Bound("axle_stack.axle_takes_the_nut.comfort", 1.5, "common practice, no source")),
    severity=Severity.INJURY,
    caution=(
        "The nut's nylon ring must be fully on the thread, or the wheel comes off. New nut after a few uses. Check "
        "after 1, 10 and 100 km."
    ),
    examples=(
        Example(
            "idle wheel on a 40 mm axle",
            {
                "hanger.axle_length": 40.0,
                "axle_nut.stack": (25.7, 26.0, 26.3),
                "axle_nut.height": 8.0,
                "hanger.thread_pitch": 1.25,
            },
            "holds",
            4.75,
        ),
        Example(
            "exactly on the limit",
            {"hanger.axle_length": 35.25, "axle_nut.stack": 26.0, "axle_nut.height": 8.0, "hanger.thread_pitch": 1.25},
            "holds",
            0.0,
        ),
        Example(
            "driven wheel with a 15 mm spacer on a 48 mm axle",
            {"hanger.axle_length": 48.0, "axle_nut.stack": 41.0, "axle_nut.height": 8.0, "hanger.thread_pitch": 1.25},
            "fails",
            -2.25,
            two_numbers="the 41 mm stack is shorter than the 48 mm axle: comparing two numbers says yes",
        ),
        Example(
            "axle read with a ruler",
            {
                "hanger.axle_length": (49.5, 50.0, 50.5),
                "axle_nut.stack": 41.0,
                "axle_nut.height": 8.0,
                "hanger.thread_pitch": 1.25,
            },
            "undecided",
            -0.25,
        ),
        Example(
            "axle unread", {"axle_nut.stack": 41.0, "axle_nut.height": 8.0, "hanger.thread_pitch": 1.25}, "undecided"
        ),
    ),
)
