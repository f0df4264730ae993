"""The name of a connector is its current for a moment with a fan beside it. In a closed box it runs at seven tenths of
that; above its name its housing melts and the contacts let go.
"""

from fitdb.model.rule import AtMost, Bound, Example, Rule, Severity


def quantity(asked: float, link_current: float) -> float:
    return 100.0 * asked / link_current


RULE = Rule(
    question="Does the connector carry the current that is asked?",
    needs=("pack.asked_current", "connector.link_current"),
    quantity=quantity,
    measures="what the controllers may draw through it, in per cent of the current on its label",
    formula="u = 100·I_ask / I_connector",
    unit="percent",
    hard=AtMost(Bound("current_connector.connector_carries_the_current.most", 100.0, "common practice, no source")),
    comfort=AtMost(
        Bound("current_connector.connector_carries_the_current.comfort", 70.0, "common practice, no source")
    ),
    severity=Severity.FIRE,
    caution=(
        "A lithium pack cannot be switched off. A connector that melts lays its contacts bare: feel it after the "
        "first rides, and change it when it is hot or brown."
    ),
    remedy_hint="a larger connector on both sides, or a lower pack current in the settings",
    examples=(
        Example(
            "40 A through a 60 A connector",
            {"pack.asked_current": 40.0, "connector.link_current": 60.0},
            "holds",
            33.333,
        ),
        Example(
            "two motors of 40 A each through a 60 A connector",
            {"pack.asked_current": 80.0, "connector.link_current": 60.0},
            "fails",
            -33.333,
            two_numbers="60 A > 40 A: the label against one setting says yes",
        ),
        Example(
            "exactly on the limit",
            {"pack.asked_current": 60.0, "connector.link_current": 60.0},
            "holds",
            0.0,
        ),
        Example("connector unread", {"pack.asked_current": 60.0}, "undecided"),
    ),
)
