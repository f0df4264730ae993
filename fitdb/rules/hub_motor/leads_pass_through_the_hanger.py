"""Three thick leads and the sensor lead leave a hub motor through its axle and run on inside the hanger. What has to be
pulled through by force is rubbed bare at the edge.
"""

from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity


def quantity(lead_bore: float, bundle: float) -> float:
    return lead_bore - bundle


RULE = Rule(
    question="Do the motor's leads pass through the hanger?",
    needs=("hanger.lead_bore", "hub_motor.lead_bundle_diameter"),
    quantity=quantity,
    measures="bore for leads in the hanger less the diameter of the bundle",
    formula="s = d_bore − d_bundle",
    unit="mm",
    hard=AtLeast(Bound("hub_motor.leads_pass_through_the_hanger.least", 0.5, "common practice, no source")),
    severity=Severity.DAMAGE,
    examples=(
        Example(
            "9 mm bundle through 10 mm",
            {"hanger.lead_bore": (9.9, 10.0, 10.1), "hub_motor.lead_bundle_diameter": (8.8, 9.0, 9.2)},
            "holds",
            0.5,
        ),
        Example(
            "exactly on the limit", {"hanger.lead_bore": 10.0, "hub_motor.lead_bundle_diameter": 9.5}, "holds", 0.0
        ),
        Example(
            "9.8 mm bundle through 10 mm",
            {"hanger.lead_bore": 10.0, "hub_motor.lead_bundle_diameter": 9.8},
            "fails",
            -0.3,
            two_numbers="9.8 is less than 10: comparing two diameters says yes",
        ),
        Example("hanger unread", {"hub_motor.lead_bundle_diameter": 9.0}, "undecided"),
    ),
)
