"""The current on a controller's sheet is meant with air or metal on its face. Shut in plastic it gives 0.6 to 0.7 of
it before it fades; with a plate or a pad to a metal wall it gives all of it.
"""

from fitdb.formulas.box_heat import share_left_in_box
from fitdb.model.rule import AtLeast, Bound, Constant, Example, Rule, Severity


def quantity(rating: float, setting: float, shell: str, pads: tuple[str, ...], in_still_air: float) -> float:
    return rating * share_left_in_box(shell, pads, in_still_air) - setting


RULE = Rule(
    question="Does the controller give its motor current in this box?",
    needs=(
        "controller.phase_continuous_current",
        "controller.motor_current",
        "enclosure.shell",
        "thermal_pad*.pad_form",
    ),
    quantity=quantity,
    measures="continuous phase current left in the box less the motor current as set",
    formula="m = k·I_cont − I_set; k = 1 with a plate, or a pad to metal, else 0.65",
    unit="A",
    hard=AtLeast(Bound("controller_heat.current_suits_the_box.least", 0.0, "common practice, no source")),
    severity=Severity.DAMAGE,
    constants=(Constant("in_still_air", 0.65, "1", "common practice, no source: 0.6 to 0.7"),),
    caution=(
        "A controller fades from 80 °C and shuts off near 95 °C, and the brake with it. Feel it after the first hill."
    ),
    remedy_hint="a plate to the lid, a pad to a metal wall, or less motor current",
    examples=(
        Example(
            "plate to the lid",
            {
                "controller.phase_continuous_current": 60.0,
                "controller.motor_current": 50.0,
                "enclosure.shell": "hard_plastic",
                "thermal_pad*.pad_form": ("metal_plate",),
            },
            "holds",
            10.0,
        ),
        Example(
            "shut in plastic",
            {
                "controller.phase_continuous_current": 60.0,
                "controller.motor_current": 50.0,
                "enclosure.shell": "hard_plastic",
            },
            "fails",
            -11.0,
            two_numbers="50 is less than 60: comparing two numbers says yes",
        ),
        Example(
            "exactly on the limit",
            {
                "controller.phase_continuous_current": 60.0,
                "controller.motor_current": 39.0,
                "enclosure.shell": "hard_plastic",
            },
            "holds",
            0.0,
        ),
        Example("rating unread", {"controller.motor_current": 50.0, "enclosure.shell": "hard_plastic"}, "undecided"),
    ),
)
