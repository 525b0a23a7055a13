"""Exports, forms and schedules: units in columns of their own, pipes and tubes in one column, what posts still carry."""

from __future__ import annotations

import pytest
from survey_books import book, sheet
from survey_checked import check_book
from test_reading_layouts import POLICY, posts

from pipeline.intake.layout.stated_units import units_stated
from pipeline.intake.survey.headings import claim
from pipeline.intake.survey.list_words import read_word
from pipeline.intake.survey.shape_words import shape_described

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


DESCRIBED = {
    "round steel post, set in concrete": "round", "square steel post on base plate": "square", "gooseneck post, round": "round",
    "CHS post, welded arm": "round", "SHS 100 galv": "square", "steel, square, bolted down": "square", "not round": "",
    "Round post with square base plate": "", "round or square": "", "two round posts": "", "Market square": "",
    "square post?": "", "semi circular pole": "", "square at bottom, round pole above": "", "round-cornered square post": "",
}  # fmt: skip


def test_a_description_says_one_shape_or_none() -> None:
    assert {text: shape_described(text) for text in DESCRIBED} == DESCRIBED


@pytest.mark.parametrize("heading", ["What is there", "Description of post", "Item description", "Existing post", "Post", "Type"])
def test_posts_described_in_words_have_their_shape_and_warnings_from_them(heading: str) -> None:
    heads = ["Site", heading, "Post OD (mm)", "Height (m)"]
    told = [
        "round steel post, set in concrete",
        "square steel post on base plate",
        "gooseneck post, round",
        "round pole, arm welded to it",
    ]
    rows = check_book(
        book(sheet([heads, *([f"Park {n} School", t, 100, 3.2] for n, t in enumerate(told))])), "a.xlsx", POLICY
    ).rows
    assert [(r.held, r.post_shape) for r in rows] == [(False, s) for s in ("round", "square", "round", "round")]
    assert (rows[2].post_line, rows[3].old_fittings) == ("gooseneck", "fixed")


def test_a_posts_name_that_says_another_shape_than_its_size_is_asked() -> None:
    heads = ["Site", "Goal", "Post OD (mm)", "Height (m)"]
    assert posts(heads, ["Park A School", "square steel post", 100, 3.2], ["Park A School", "north", 100, 3.2]) != []
    found = posts(heads, ["Park A School", "square steel post", 100, 3.2], ["Park A School", "north", 100, 3.2])
    assert [p[1] for p in found] == ["north"]


def test_units_behind_a_comma_or_in_brackets_in_a_line_above() -> None:
    both = {"post_size": "mm", "post_height": "m"}
    for text in (
        "Basketball posts at our schools. Widths are outside, in mm. Heights in metres from the seal.",
        "Diameters are external (mm), heights are from ground level (m)",
        "Widths are outside, in mm; heights are from the ground, in metres",
    ):
        assert units_stated(text) == both, text
    assert [t for t in ("Height of board, in mm", "Courts are 28 m long, in mm") if units_stated(t)] == []


def test_sizes_overall_and_outside_in_short() -> None:
    for text in ("Size o/a (mm)", "Size (o/a) mm", "Dia o/a", "O/A size", "Size o/s mm", "Outs. size", "o/all width"):
        found = claim(text)
        assert found is not None, text
        assert found.name == "post_size", text


def test_posts_of_one_name_on_courts_by_their_reference() -> None:
    found = posts(
        ["Location", "Court ref", "Post ref", "Shape", "OD (mm)", "Height (m)"],
        ["Kirkbrae Academy", "Upper", "1", "round", 114, 3.4], [None, "Lower", "1", "square", 100, 3],
    )  # fmt: skip
    assert [(p[0], p[3]) for p in found] == [("Kirkbrae Academy", "round"), ("Kirkbrae Academy", "square")]


def test_a_ground_is_named_in_words_beside_its_code_or_as_a_court() -> None:
    body = ["round", 89, 3000]
    heads = ["Bldg", "Bldg Name", "Asset Tag", "Shape", "OD mm", "Height mm"]
    found = posts(heads, ["S014", "Pinehurst Elementary", "B1", *body], ["S027", "Lac Vert Collegiate", "B1", *body])
    assert [p[0] for p in found] == ["Pinehurst Elementary", "Lac Vert Collegiate"]
    heads = ["Covered court / plaza", "Post", "Shape", "OD mm", "Height mm"]
    found = posts(heads, ["Purok Uno Court", "A", *body], ["Plaza Mayor", "A", *body], ["-do-", "B", *body])
    assert [p[0] for p in found] == ["Purok Uno Court", "Plaza Mayor", "Plaza Mayor"]


def test_who_signs_below_a_table_is_no_post() -> None:
    heads = ["Item", "Where", "Shape", "OD (mm)", "Height (m)", "Nr"]
    rows = [["a", "Harcombe Leisure Centre", "round", 114, 3.3, 2], ["b", "Harcombe Leisure Centre", "square", 100, 3.1, 1]]
    rows += [["c", "St Oswin's Primary School", "round", 89, 2.75, 2]]
    got = check_book(book(sheet([heads, *rows, [], ["Regards"], ["Steph"]])), "a.xlsx", POLICY)
    assert [(r.post_code, r.quantity, r.held) for r in got.rows] == [("a", 2, False), ("b", 1, False), ("c", 2, False)]
    assert got.queries == ()


def test_thanks_between_two_grounds_sign_nothing() -> None:
    heads, row = ["Post", "Shape", "OD (mm)", "Height (m)"], ["A", "round", 89, 3]
    assert [p[0] for p in posts(["Elm School"], heads, row, ["Thanks"], ["Oak Park"], row)] == ["Elm School", "Oak Park"]


def test_a_total_that_sums_the_numbers_up_makes_them_each_rows_own() -> None:
    heads = ["Name of institution", "No. of posts", "Shape", "External size (mm)", "Height above ground (mm)"]
    rows = [["Tumaini School", 2, "round", 89, 3050], ["Tumaini School", 2, "square", 100, 3350]]
    assert posts(heads, *rows) == []
    assert [p[2] for p in posts(heads, *rows, ["TOTAL", 4])] == [2, 2]
    assert posts(heads, *rows, ["TOTAL", 2]) == []


def test_left_and_right_hand_posts_stand_side_by_side() -> None:
    heads = [
        "School",
        "LH post size (mm)",
        "LH post shape",
        "LH height (m)",
        "RH post size (mm)",
        "RH post shape",
        "RH height (m)",
    ]
    found = posts(heads, ["Elm School", 114, "Round", 3.2, 100, "Square", 3.1], ["Oak School", 89, "Round", 2.7])
    assert [p[1:] for p in found] == [
        ("LH", 1, "round", 114, 3200), ("RH", 1, "square", 100, 3100), ("LH", 1, "round", 89, 2700),
    ]  # fmt: skip


def test_an_existing_post_is_its_size_where_every_cell_says_so() -> None:
    heads = ["School", "Count", "Existing post", "Post ht AFG"]
    found = posts(heads, ["Delmar Elem", 4, '4-1/2" OD steel pipe', "11'-0\""], ["Rosa Vista MS", 2, '4" x 4" HSS', "10'-6\""])
    assert [p[2:] for p in found] == [(4, "round", 114, 3353), (2, "square", 102, 3200)]
