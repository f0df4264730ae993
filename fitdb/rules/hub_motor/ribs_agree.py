"""Ribs on the can lie in grooves of the sleeve and carry the torque. A sleeve with another number of grooves does not
go on, or sits on the tops of the ribs and comes off.
"""

from fitdb.model.rule import Between, Bound, Example, Rule, Severity, Shape


def quantity(grooves: int, ribs: int) -> float:
    return float(grooves - ribs)


RULE = Rule(
    question="Has the sleeve as many grooves as the can has ribs?",
    needs=("hub_sleeve.rib_count", "hub_motor.rib_count"),
    quantity=quantity,
    measures="grooves of the sleeve less ribs of the can",
    formula="n_grooves − n_ribs",
    unit="",
    hard=Between(
        Bound("hub_motor.ribs_agree.low", 0.0, "common practice, no source"),
        Bound("hub_motor.ribs_agree.high", 0.0, "common practice, no source"),
    ),
    severity=Severity.DAMAGE,
    shape=Shape.STEPPED,
    examples=(
        Example("twelve grooves, twelve ribs", {"hub_sleeve.rib_count": 12, "hub_motor.rib_count": 12}, "holds", 0.0),
        Example(
            "twelve grooves, six ribs",
            {"hub_sleeve.rib_count": 12, "hub_motor.rib_count": 6},
            "fails",
            -6.0,
            two_numbers="there are more grooves than ribs: comparing two counts says yes",
        ),
        Example("ribs under the old sleeve not counted", {"hub_sleeve.rib_count": 12}, "undecided"),
    ),
)
