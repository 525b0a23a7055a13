"""Exports, forms and schedules: units in columns of their own, pipes and tubes in one column, what posts still carry."""

from __future__ import annotations

import pytest
from test_reading_layouts import posts

from pipeline.intake.survey.list_words import read_word

UNITS_NAMED = (
    ("OutsideWidth", "WidthUoM", "PostHeight", "HeightUoM"),
    ("Post_Size", "Size_Unit", "Post_Height", "Height_Unit"),
    ("Diameter", "Units", "Height", "Units"),
)


@pytest.mark.parametrize("heads", UNITS_NAMED)
def test_a_column_of_units_is_of_the_measure_that_it_names(heads: tuple[str, ...]) -> None:
    found = posts(
        ["Site", "Shape", *heads], ["Matai Park", "Round", 114, "mm", 3.4, "m"], ["Ngaio Park", "Round", 3.5, "in", 9, "ft"]
    )
    assert [p[4:] for p in found] == [(114, 3400), (89, 2743)]
    apart = ["Site", "Shape", "Width", "Height", "HeightUoM", "WidthUoM"]
    assert [p[4:] for p in posts(apart, ["Matai Park", "Round", 114, 3.4, "m", "mm"])] == [(114, 3400)]


def test_one_column_of_units_behind_all_measures_is_of_all() -> None:
    found = posts(["Site", "Shape", "Diameter", "Height", "UoM"], ["Matai Park", "Round", 114, 3400, "mm"])
    assert [p[4:] for p in found] == [(114, 3400)]
    apart = ["Site", "Shape", "Diameter", "Surface", "Height", "UoM"]
    assert posts(apart, ["Matai Park", "Round", 114, "asphalt", 3400, "mm"]) == []


def test_pipes_by_their_names_and_tubes_by_their_sides_stand_in_one_column() -> None:
    for heading in ("Nominal bore / side", "NB / width", "Pipe bore or SHS size", "NB or side"):
        found = posts(
            ["Site", "Shape", heading, "Height (m)"],
            ["Park A School", "round", "100 mm NB", 3.2],
            ["Park B School", "square", "100 mm x 100 mm", 3],
        )
        assert [p[4] for p in found] == [114, 100], heading
        assert posts(["Site", "Shape", heading + " (mm)", "Height (m)"], ["Park A School", "round", 100, 3.2]) == [], heading


def test_posts_that_stand_there_are_counted_beside_their_names() -> None:
    for heading in ("Existing posts", "Current poles", "Installed posts", "Postes existentes"):
        found = posts(
            ["Line", "Site", heading, "Post no.", "Shape", "Size (in)", "Height (ft)"],
            [10, "Marigold Park", 2, "1 & 2", "round", 4.5, 11], [20, "Marigold Park", 1, "3", "square", 4, 10],
        )  # fmt: skip
        assert [(p[1], p[2]) for p in found] == [("1 & 2", 2), ("3", 1)], heading


def test_how_old_boards_are_held_or_that_they_are_gone() -> None:
    removable = ("board, held by U-bolts", "held with bolts", "secured with straps", "old hoop held by bolts")
    assert {read.value for t in removable if (read := read_word("old_fittings", t))} == {"removable"}
    gone = ("Not there any more", "gone", "no longer there", "It is gone")
    assert {read.value for t in gone if (read := read_word("old_fittings", t))} == {"none"}
    assert [t for t in ("board gone", "held", "not held with bolts") if read_word("old_fittings", t)] == []
