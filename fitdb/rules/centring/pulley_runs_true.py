"""What the collar has of air, what the pulley and what an adapter plate run out of true, adds up. Beyond three
tenths the belt pulses and wears.
"""

from fitdb.model.rule import AtMost, Bound, Example, Rule, Severity


def quantity(
    centre_bore: float,
    spigot_diameter: float,
    carried_by: tuple[str, ...],
    run_out: float,
    plates: tuple[float, ...],
) -> float:
    looseness = centre_bore - spigot_diameter if not carried_by or carried_by[0] == "wheel" else 0.0
    return looseness + run_out + sum(plates)


RULE = Rule(
    question="Does the pulley run true on the wheel?",
    needs=("wheel.centre_bore", "pulley.spigot_diameter", "pulley*.carried_by", "pulley.run_out", "lug_plate*.run_out"),
    quantity=quantity,
    measures="whole swing of the teeth: air of the collar, the pulley's own, and the plates",
    formula="(D_bore − D_collar) + run-out + Σ plates",
    unit="mm",
    hard=AtMost(Bound("centring.pulley_runs_true.most", 0.3, "common practice, no source")),
    severity=Severity.DAMAGE,
    examples=(
        Example(
            "turned pulley",
            {
                "wheel.centre_bore": 28.02,
                "pulley.spigot_diameter": 27.99,
                "pulley*.carried_by": ("wheel",),
                "pulley.run_out": 0.08,
            },
            "holds",
            0.19,
        ),
        Example(
            "exactly on the limit",
            {
                "wheel.centre_bore": 28.1,
                "pulley.spigot_diameter": 28.0,
                "pulley*.carried_by": ("wheel",),
                "pulley.run_out": 0.1,
                "lug_plate*.run_out": (0.1,),
            },
            "holds",
            0.0,
        ),
        Example(
            "printed pulley behind an adapter plate",
            {
                "wheel.centre_bore": 28.05,
                "pulley.spigot_diameter": 28.0,
                "pulley*.carried_by": ("wheel",),
                "pulley.run_out": 0.2,
                "lug_plate*.run_out": (0.1,),
            },
            "fails",
            -0.05,
            two_numbers="each alone is below 0.3: comparing one by one says yes",
        ),
        Example(
            "run-out unread",
            {"wheel.centre_bore": 28.02, "pulley.spigot_diameter": 27.99, "pulley*.carried_by": ("wheel",)},
            "undecided",
        ),
    ),
)
