"""Where the outer face of a lug stands, from the axis: half of its height outward of its middle."""

from fitdb.model.rule import SurveyLine


def quantity(lug_circle_radius: float, lug_radial_height: float) -> float:
    return lug_circle_radius + 0.5 * lug_radial_height


LINE = SurveyLine(
    target="pulley.lug_outer_radius",
    needs=("pulley.lug_circle_radius", "pulley.lug_radial_height"),
    quantity=quantity,
    measures="axis to the outer face of a lug",
    formula="r_lug + h_lug/2",
    unit="mm",
    source="plane geometry",
    examples=(({"pulley.lug_circle_radius": 20.5, "pulley.lug_radial_height": 10.5}, 25.75),),
)
