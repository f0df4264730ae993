"""With its teeth in the belt's plane the pulley has to stand clear of the mount. Turned round, hub outward, most
pulleys come some millimetres closer to the plate.
"""

from fitdb.formulas.pulley_on_shaft import pulley_start
from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity


def quantity(belt_plane: float, overall_length: float, hub_length: float, hub_side: str) -> float:
    return pulley_start(belt_plane, overall_length, hub_length, hub_side)


RULE = Rule(
    question="Does the pulley clear the mount where the belt runs?",
    needs=(
        "drive_pulley.belt_plane_from_plate",
        "drive_pulley.overall_length",
        "drive_pulley.hub_length",
        "drive_pulley.hub_side",
    ),
    quantity=quantity,
    measures="gap between the mount's plate and the pulley, its teeth in the plane of the driven pulley",
    formula="x − (l ± l_hub)/2, + hub toward the motor",
    unit="mm",
    hard=AtLeast(Bound("shaft_length.pulley_clears_plate.least", 0.5, "common practice, no source")),
    severity=Severity.DAMAGE,
    remedy_hint="turn the pulley round, or move the wheel outward with a longer spacer",
    examples=(
        Example(
            "belt 12 mm off the plate, hub outward",
            {
                "drive_pulley.belt_plane_from_plate": (11.0, 12.0, 13.0),
                "drive_pulley.overall_length": 32.0,
                "drive_pulley.hub_length": 14.0,
                "drive_pulley.hub_side": "toward_end",
            },
            "holds",
            2.5,
        ),
        Example(
            "the same pulley with its hub to the motor",
            {
                "drive_pulley.belt_plane_from_plate": 12.0,
                "drive_pulley.overall_length": 32.0,
                "drive_pulley.hub_length": 14.0,
                "drive_pulley.hub_side": "toward_motor",
            },
            "fails",
            -11.5,
            two_numbers="the same 32 mm pulley: comparing lengths says what fits one way fits the other way",
        ),
        Example(
            "exactly on the limit",
            {
                "drive_pulley.belt_plane_from_plate": 9.5,
                "drive_pulley.overall_length": 32.0,
                "drive_pulley.hub_length": 14.0,
                "drive_pulley.hub_side": "toward_end",
            },
            "holds",
            0.0,
        ),
        Example(
            "plane of the belt unread",
            {
                "drive_pulley.overall_length": 32.0,
                "drive_pulley.hub_length": 14.0,
                "drive_pulley.hub_side": "toward_end",
            },
            "undecided",
        ),
    ),
)
