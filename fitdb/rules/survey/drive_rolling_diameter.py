"""The diameter on which the driven wheel rolls. A worn wheel is slower and pulls harder, by the ratio of the
diameters.
"""

from fitdb.formulas.ride import rolling_diameter
from fitdb.model.rule import SurveyLine

LINE = SurveyLine(
    target="drive.rolling_diameter",
    needs=("wheel.outer_diameter", "wheel*.used", "wheel*.wear"),
    quantity=rolling_diameter,
    measures="diameter of the driven wheel, or of the sleeve of a hub motor, less what has been ridden off",
    formula="D = D_read − 2·wear (if ridden since)",
    unit="mm",
    source="plane geometry",
    examples=(
        ({"wheel.outer_diameter": 90.0, "wheel*.used": ("no",), "wheel*.wear": (2.0,)}, 90.0),
        ({"wheel.outer_diameter": 90.0, "wheel*.used": ("yes",), "wheel*.wear": (2.0,)}, 86.0),
        ({"wheel.outer_diameter": 100.0}, 100.0),
    ),
)
