"""Types of posts in a table of their own, and the posts of each type in another: each post has the measures of its type."""

from __future__ import annotations

from typing import Any

import pytest
from survey_books import book, sheet
from survey_checked import check_book
from test_reading_layouts import POLICY, posts

TYPES: list[list[Any]] = [
    ["D1 Post types"],
    ["Type", "Section", "Outside dia. or width (mm)", "Height above ground (m)"],
    ["A", "CHS", 114.3, 3.35],
    ["B", "SHS", 100, 3.05],
]
PLACES: list[list[Any]] = [
    ["D2 Schedule of locations"],
    ["Site", "Court", "Type", "No. of posts", "Notes"],
    ["Mallee Ridge Primary", "Upper", "A", 2],
    ["Mallee Ridge Primary", "Lower", "B", 1],
    ["Port Ansell Oval", "1", "Type B", 4, "old arm welded on"],
]
READ = [
    ("Mallee Ridge Primary", 2, "round", 114, 3350), ("Mallee Ridge Primary", 1, "square", 100, 3050),
    ("Port Ansell Oval", 4, "square", 100, 3050),
]  # fmt: skip


@pytest.mark.parametrize("lines", [[*TYPES, [], *PLACES], [*PLACES, [], *TYPES]])
def test_posts_have_the_measures_of_their_type(lines: list[list[Any]]) -> None:
    found = posts(*lines)
    assert [(p[2], *p[3:]) for p in found] == [r[1:] for r in READ]


def test_it_is_said_where_the_measures_come_from_and_the_cells_keep_their_addresses() -> None:
    row = check_book(book(sheet([*TYPES, [], *PLACES])), "a.xlsx", POLICY).rows[0]
    said = {o.name: (o.cell, o.how) for o in row.origins}
    assert said["post_size"] == ("C3", "type_table")
    assert said["post_height"] == ("D3", "type_table")


@pytest.mark.parametrize(
    "types",
    [
        [*TYPES[:3], ["A", "SHS", 100, 3.05]],  # two of one name
        [*TYPES[:3], ["C", "SHS", 100, 3.05]],  # a post of a type that is not there
        [*TYPES[:3], ["B", "SHS", 100, '"']],  # of another row
    ],
)
def test_types_that_are_not_plain_are_not_taken(types: list[list[Any]]) -> None:
    assert posts(*types, [], *PLACES) == []
    assert posts(*types, [], *PLACES[:3]) == [] or types[-1][0] != "A"


def test_a_list_of_posts_with_a_kind_is_no_table_of_types() -> None:
    heads = ["School", "Type", "Post OD (mm)", "Height above ground (m)"]
    again = ["School", "Type", "Cost"]
    found = posts(
        heads, ["Elm School", "round", 114, 3.3], ["Oak School", "round", 89, 3], [], again, ["Elm School", "round", 40]
    )
    assert [(p[4], p[5]) for p in found] == [(114, 3300), (89, 3000)]
