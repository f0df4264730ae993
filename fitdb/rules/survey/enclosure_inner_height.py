"""The clear height under the deck: that of the box, and what frames between box and deck add to it. The opening of a
frame is taken to be as large as the cavity. What a pressed gasket adds is left as room for the packing.
"""

from fitdb.model.rule import SurveyLine


def quantity(cavity_height: float, frames: tuple[float, ...]) -> float:
    return cavity_height + sum(frames)


LINE = SurveyLine(
    target="enclosure.inner_height",
    needs=("enclosure.cavity_height", "spacer_frame*.thickness"),
    quantity=quantity,
    measures="clear height inside, frames between box and deck included",
    formula="H = H_cavity + Σ t_frame",
    unit="mm",
    source="plane geometry",
    examples=(
        ({"enclosure.cavity_height": 45.0}, 45.0),
        ({"enclosure.cavity_height": 45.0, "spacer_frame*.thickness": (5.0,)}, 50.0),
        ({"enclosure.cavity_height": 45.0, "spacer_frame*.thickness": (10.0, 3.0)}, 58.0),
    ),
)
