"""Heat in a box: by which way it reaches the wall."""

from fitdb.formulas import box_heat


def test_a_soft_pad_on_plastic_leads_nothing_away_and_a_plate_does() -> None:
    assert box_heat.way_of_the_heat("hard_plastic", ("soft_pad",)) == "air"
    assert box_heat.way_of_the_heat("hard_plastic", ("metal_plate",)) == "joined"
    assert box_heat.way_of_the_heat("alloy", ("soft_pad",)) == "joined"
    assert box_heat.way_of_the_heat("alloy", ()) == "air"


def test_a_plate_never_makes_it_worse() -> None:
    for shell in ("alloy", "hard_plastic", "glass_laminate", "carbon_laminate", "soft_plastic"):
        assert box_heat.share_left_in_box(shell, ("metal_plate",), 0.65) == 1.0
        assert box_heat.share_left_in_box(shell, (), 0.65) == 0.65
