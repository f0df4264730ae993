"""By how much a figure moves when one reading does: what builders carry in their heads, against whole boards.

Each is a finite step on a board of whole_swaps.yaml, told as figures tell it. Common practice, no source; the steps are
rounded as they are said ("a tooth of the belt is two and a half millimetres").
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import pytest
from sqlalchemy import Engine
from stories.number_places import Counting
from stories.whole_swap import on_the_bench, stories

from fitdb.catalogue import read
from fitdb.model.part import Part
from fitdb.rules import rulebook

# Story, figure, part, size, from, to, how far the figure moves, and how roughly that is said.
THUMBS = (
    ("E03", "belt_centre", "belt", "length", "265 mm", "270 mm", 2.58, 0.1),
    ("E03", "belt_centre", "drive-new", "teeth", "14", "15", -1.1, 0.1),
    ("E03", "belt_centre", "driven", "teeth", "36", "37", -1.5, 0.1),
    ("T02", "pulley_clearance", "driven-44", "teeth", "44", "45", -0.80, 0.01),
    ("T02", "pulley_clearance", "wheel", "outer_dia", "83 mm", "84 mm", 0.5, 0.01),
    ("E09", "bite_clearance", "truck", "max_lean", "14 deg", "15 deg", -1.9, 0.2),
    ("E09", "bite_clearance", "deck", "half_width_at_wheel", "120 mm", "121 mm", -0.22, 0.03),
    ("E09", "bite_clearance", "wheel", "outer_dia", "90 mm", "91 mm", -0.5, 0.01),
    ("E09", "bite_clearance", "riser", "thickness", "8 mm", "9 mm", 1.0, 0.01),
    ("T08", "deck_sag", "deck", "stiffness_mid", "40 N/mm", "36 N/mm", 1.7, 0.1),
    ("T08", "box_clearance_bump", "deck", "stiffness_mid", "40 N/mm", "36 N/mm", -3.4, 0.2),
)


@pytest.fixture(scope="module")
def countings(sqlite_catalogue: tuple[Engine, read.Book, Mapping[str, list[Part]]]) -> Mapping[str, Counting]:
    _, book, shipped = sqlite_catalogue
    told = {own for own, *_ in THUMBS} | {"N06"}
    return {
        story.id: Counting(on_the_bench(story, book, rulebook(), shipped), book)
        for story in stories()
        if story.id in told
    }


@pytest.mark.parametrize("thumb", THUMBS, ids=lambda one: " ".join(map(str, one[:4])))
def test_one_reading_moves_a_figure_as_far_as_builders_say(
    thumb: tuple[Any, ...], countings: Mapping[str, Counting]
) -> None:
    own, figure, part, size, before, after, moves, roughly = thumb
    counting, values = countings[own], []
    for typed in (before, after):
        told = counting.outlook(counting.bench.board({"changed": {part: {size: typed}}})).figures[figure].value
        assert told is not None
        values.append(told.nominal)
    assert values[1] - values[0] == pytest.approx(moves, abs=roughly)


def test_a_pack_of_36_power_cells_sags_and_warms_as_builders_count(countings: Mapping[str, Counting]) -> None:
    """12S in 3 parallel of 20 mΩ with 15 mΩ of links: 95 mΩ; at 40 A 3.8 V and 152 W (common practice, no source)."""
    counting = countings["N06"]
    board = counting.bench.board({"changed": {"pack": {"parallel": "3", "cell_res": "20 mohm"}}})
    figures = counting.outlook(board).figures
    for own, expected in (("pack_resistance", 95.0), ("pack_current", 40.0), ("pack_sag", 3.8), ("pack_heat", 152.0)):
        value = figures[own].value
        assert value is not None
        assert value.nominal == pytest.approx(expected, rel=0.01), own
