"""What is left of a lead once it lies on its path, board unloaded and straight ahead."""

from fitdb.model.rule import SurveyLine


def quantity(length: float, path: float) -> float:
    return length - path


LINE = SurveyLine(
    target="lead.spare_length",
    needs=("lead.length", "lead.path_length"),
    quantity=quantity,
    measures="lead left over on its path",
    formula="spare = length − path",
    unit="mm",
    source="plane geometry",
    examples=(({"lead.length": 300.0, "lead.path_length": 270.0}, 30.0),),
)
