"""The nylon ring is the last part of the nut to meet the thread. One full turn has to show beyond it, or it grips
nothing.
"""

from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity


def quantity(axle_length: float, stack: float, nut_height: float, pitch: float) -> float:
    return (axle_length - stack - nut_height) / pitch


RULE = Rule(
    question="Does a full turn of thread show beyond the nut?",
    needs=("hanger.axle_length", "axle_nut.stack", "axle_nut.height", "hanger.thread_pitch"),
    quantity=quantity,
    measures="turns of thread beyond the nut",
    formula="(L − Σ − h_nut)/P",
    unit="",
    hard=AtLeast(Bound("axle_nut.nylon_ring_is_fully_on.least", 1.0, "common practice, no source")),
    severity=Severity.INJURY,
    caution=(
        "The nut's nylon ring must be fully on the thread, or the wheel comes off. New nut after a few uses. Check "
        "after 1, 10 and 100 km."
    ),
    examples=(
        Example(
            "two and a half turns",
            {"hanger.axle_length": 37.125, "axle_nut.stack": 26.0, "axle_nut.height": 8.0, "hanger.thread_pitch": 1.25},
            "holds",
            1.5,
        ),
        Example(
            "exactly on the limit",
            {"hanger.axle_length": 35.25, "axle_nut.stack": 26.0, "axle_nut.height": 8.0, "hanger.thread_pitch": 1.25},
            "holds",
            0.0,
        ),
        Example(
            "flush with the nut",
            {"hanger.axle_length": 34.0, "axle_nut.stack": 26.0, "axle_nut.height": 8.0, "hanger.thread_pitch": 1.25},
            "fails",
            -1.0,
            two_numbers="stack and nut make 34, the axle is 34: comparing two numbers says yes",
        ),
        Example(
            "nut unread", {"hanger.axle_length": 36.0, "axle_nut.stack": 26.0, "hanger.thread_pitch": 1.25}, "undecided"
        ),
    ),
)
