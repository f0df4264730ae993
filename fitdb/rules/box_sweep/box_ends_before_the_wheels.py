"""At full steer the wheels swing towards the middle of the board. A box that ends before their sweep cannot be struck,
however wide it is.
"""

from fitdb.formulas.clearances import wheel_sweep_to_box
from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity


def quantity(
    end: float,
    wheelbase: float,
    position: float,
    box_length: float,
    diameter: float,
    outer_face: float,
    steer: float,
) -> float:
    return wheel_sweep_to_box(wheelbase / 2.0 - end * position - box_length / 2.0, diameter / 2.0, outer_face, steer)


WHEEL = {"wheel.outer_diameter": 90.0, "wheel.outer_face": (128.0, 130.0, 132.0)}

RULE = Rule(
    question="Does the box end before the sweep of the steered wheels?",
    needs=(
        "over.end",
        "deck.wheelbase",
        "enclosure.position_from_middle",
        "enclosure.length",
        "wheel.outer_diameter",
        "wheel.outer_face",
        "truck.steer",
    ),
    quantity=quantity,
    measures="end of the box to the wheel at full steer, along the board; end is 1 at the rear and −1 in front",
    formula="x = W/2 − end·position − ℓ/2 − R − y_out·sin δ",
    unit="mm",
    hard=AtLeast(Bound("box_sweep.box_ends_before_the_wheels.least", 5.0, "common practice, no source")),
    severity=Severity.DAMAGE,
    excused_by="box_sweep.box_lies_between_the_wheels",
    remedy_hint="move the box, take a shorter one, or one that lies between the wheels",
    examples=(
        Example(
            "480 mm box, 700 mm wheelbase, 15 degrees of steer",
            {
                "over.end": 1.0,
                "deck.wheelbase": 700.0,
                "enclosure.position_from_middle": 0.0,
                "enclosure.length": 480.0,
                "truck.steer": (12.0, 15.0, 17.0),
                **WHEEL,
            },
            "holds",
            26.35,
        ),
        Example(
            "560 mm box",
            {
                "over.end": 1.0,
                "deck.wheelbase": 700.0,
                "enclosure.position_from_middle": 0.0,
                "enclosure.length": 560.0,
                "truck.steer": (12.0, 15.0, 17.0),
                **WHEEL,
            },
            "fails",
            -13.65,
            two_numbers="70 mm to the axle and a wheel of 45 mm: straight ahead there are 25 mm of air",
        ),
        Example(
            "no steer: exactly on the limit",
            {
                "over.end": 1.0,
                "deck.wheelbase": 700.0,
                "enclosure.position_from_middle": 0.0,
                "enclosure.length": 600.0,
                "truck.steer": 0.0,
                "wheel.outer_diameter": 90.0,
                "wheel.outer_face": 130.0,
            },
            "holds",
            0.0,
        ),
        Example(
            "steer unread",
            {
                "over.end": 1.0,
                "deck.wheelbase": 700.0,
                "enclosure.position_from_middle": 0.0,
                "enclosure.length": 480.0,
                **WHEEL,
            },
            "undecided",
        ),
    ),
)
