"""How much play turning the nut back leaves: the part of a turn times the pitch. Once somebody has felt it, that
counts.
"""

from fitdb.model.rule import SurveyLine


def quantity(pitch: float, back_off: float) -> float:
    return pitch * back_off


LINE = SurveyLine(
    target="wheel.end_play",
    needs=("hanger.thread_pitch", "axle_nut.back_off"),
    quantity=quantity,
    measures="play of the wheel along the axle after the nut has been turned back",
    formula="P · turns",
    unit="mm",
    source="geometry of a screw",
    examples=(({"hanger.thread_pitch": 1.25, "axle_nut.back_off": 0.125}, 0.15625),),
)
