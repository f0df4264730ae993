"""A bullet whose rating nobody printed is taken at what its diameter carries as a rule. A rating that was read wins."""

from fitdb.formulas.phase_bullets import bullet_current
from fitdb.model.rule import Shape, SurveyLine

LINE = SurveyLine(
    target="motor_side.bullet_current",
    needs=("motor_side.bullet_diameter",),
    quantity=bullet_current,
    measures="current that a bullet of this diameter carries",
    formula="3.5 mm: 45 A, 4 mm: 70 A, 5.5 mm: 110 A, 6.5 mm: 140 A",
    unit="A",
    source="common practice, no source",
    shape=Shape.STEPPED,
    examples=(({"motor_side.bullet_diameter": 4.0}, 70.0), ({"motor_side.bullet_diameter": 5.5}, 110.0)),
)
