"""How many whole teeth the belt holds on the smaller pulley. Part of a tooth carries nothing, so it does not count; an
idler that wraps the belt further round adds whole teeth.
"""

from fitdb.formulas.belt_choice import whole_teeth_in_mesh_or_none
from fitdb.model.rule import Shape, SurveyLine


def quantity(driven_teeth: int, drive_teeth: int, pitch: float, centre: float, added: tuple[int, ...]) -> float:
    return whole_teeth_in_mesh_or_none(driven_teeth, drive_teeth, pitch, centre) + sum(added)


LINE = SurveyLine(
    target="belt.teeth_in_mesh",
    needs=(
        "driven_pulley.teeth",
        "drive_pulley.teeth",
        "drive_pulley.tooth_pitch",
        "belt.taut_centre_distance",
        "idler*.added_mesh",
    ),
    quantity=quantity,
    measures="whole teeth in mesh on the smaller pulley, idlers included; none where no such drive exists",
    formula="z_m = ⌊z·(180° − 2·asin((D−d)/2C))/360°⌋ + Σ teeth added by idlers",
    unit="",
    source="geometry; wrap after Shigley eq. 17-1",
    shape=Shape.STEPPED,
    examples=(
        (
            {
                "driven_pulley.teeth": 44,
                "drive_pulley.teeth": 14,
                "drive_pulley.tooth_pitch": 5.0,
                "belt.taut_centre_distance": 73.5927,
            },
            5.0,
        ),
        (
            {
                "driven_pulley.teeth": 60,
                "drive_pulley.teeth": 15,
                "drive_pulley.tooth_pitch": 5.0,
                "belt.taut_centre_distance": 72.1681,
                "idler*.added_mesh": (1,),
            },
            6.0,
        ),
        (
            {
                "driven_pulley.teeth": 60,
                "drive_pulley.teeth": 15,
                "drive_pulley.tooth_pitch": 5.0,
                "belt.taut_centre_distance": -35.0,
            },
            0.0,
        ),
    ),
)
