"""Where the outer wall of a window stands, from the axis: half of its height outward of its middle."""

from fitdb.model.rule import SurveyLine


def quantity(window_circle_radius: float, window_radial_height: float) -> float:
    return window_circle_radius + 0.5 * window_radial_height


LINE = SurveyLine(
    target="wheel.window_outer_radius",
    needs=("wheel.window_circle_radius", "wheel.window_radial_height"),
    quantity=quantity,
    measures="axis to the outer wall of a window",
    formula="r_window + h_window/2",
    unit="mm",
    source="plane geometry",
    examples=(({"wheel.window_circle_radius": 20.5, "wheel.window_radial_height": 12.0}, 26.5),),
)
