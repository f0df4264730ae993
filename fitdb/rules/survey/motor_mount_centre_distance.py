"""How far from the axle the motor stands. With a belt and both pulleys named, the taut belt decides; without, it is
somewhere in its slot. Somebody who has measured it on the board is believed before both.
"""

from fitdb.formulas.motor_place import centre_distance_in_slot, centre_distance_on_belt
from fitdb.model.rule import Shape, SurveyLine


def quantity(
    centre_min: float,
    centre_max: float,
    slot_share: float,
    belts: tuple[float, ...],
    taken_up: tuple[float, ...],
    pitches: tuple[float, ...],
    drive_teeth: tuple[float, ...],
    driven_teeth: tuple[float, ...],
) -> float:
    if not (belts and pitches and drive_teeth and driven_teeth):
        return centre_distance_in_slot(centre_min, centre_max, slot_share)
    length = max(belts[0] - sum(taken_up), pitches[0])
    return centre_distance_on_belt(length, pitches[0], drive_teeth[0], driven_teeth[0], centre_min, centre_max)


LINE = SurveyLine(
    target="motor_mount.centre_distance",
    needs=(
        "motor_mount.centre_min",
        "motor_mount.centre_max",
        "motor_mount.slot_share",
        "belt*.length",
        "idler*.take_up",
        "drive_pulley*.tooth_pitch",
        "drive_pulley*.teeth",
        "driven_pulley*.teeth",
    ),
    quantity=quantity,
    measures="axle centre to motor axis",
    formula="with a belt: C of the taut belt, within the slot; without: C_min + share · (C_max − C_min)",
    unit="mm",
    source="Shigley, Mechanical Engineering Design, eq. 17-1; plane geometry",
    shape=Shape.STEPPED,
    examples=(
        (
            {
                "motor_mount.centre_min": 60.0,
                "motor_mount.centre_max": 72.0,
                "motor_mount.slot_share": 50.0,
                "belt*.length": (),
                "idler*.take_up": (),
                "drive_pulley*.tooth_pitch": (),
                "drive_pulley*.teeth": (),
                "driven_pulley*.teeth": (),
            },
            66.0,
        ),
        (
            {
                "motor_mount.centre_min": 60.0,
                "motor_mount.centre_max": 72.0,
                "motor_mount.slot_share": 50.0,
                "belt*.length": (265.0,),
                "idler*.take_up": (),
                "drive_pulley*.tooth_pitch": (5.0,),
                "drive_pulley*.teeth": (15,),
                "driven_pulley*.teeth": (36,),
            },
            66.6436,
        ),
    ),
)
