"""All capacitors on the rail stand side by side, so that they add up: two controllers make twice the spark of one."""

from fitdb.model.rule import SurveyLine


def quantity(capacitances: tuple[float, ...]) -> float:
    return float(sum(capacitances))


LINE = SurveyLine(
    target="controller.rail_capacitance_together",
    needs=("controller*.rail_capacitance",),
    quantity=quantity,
    measures="capacitance on the supply side of all controllers together",
    formula="C = Σ C_controller",
    unit="mF",
    source="capacitors in parallel",
    examples=(
        ({"controller*.rail_capacitance": (0.9,)}, 0.9),
        ({"controller*.rail_capacitance": (0.9, 1.4)}, 2.3),
    ),
)
