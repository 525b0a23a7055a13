"""Headings that are whole questions, as forms ask them, and what must not be taken for one."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from survey_books import book, sheet
from survey_checked import check_book

from pipeline.intake.catalogue import documented_policy
from pipeline.intake.survey.headings import claim
from pipeline.intake.survey.list_words import question_of

QUESTIONS = [line.split("\t") for line in (Path(__file__).parent / "data" / "questions.tsv").read_text("utf-8").splitlines()[1:]]
"""Questions of forms with the column that they ask for, or `-`, and the unit that they say. Source: common practice."""


def test_questions_mean_the_right_column_with_their_unit_or_none() -> None:
    assert len(QUESTIONS) >= 200
    found = {text: ((known.name, known.unit) if (known := claim(text)) else ("-", "")) for text, _, _ in QUESTIONS}
    assert {text: found[text] for text, name, unit in QUESTIONS if found[text] != (name, unit)} == {}


@pytest.mark.parametrize(
    ("heading", "column", "yes", "no"),
    [
        ("Is there anything still fixed to the post?", "old_fittings", "unknown", "none"),
        ("Is there an old board or bracket on the post?", "old_fittings", "unknown", "unknown"),
        ("Is anything welded to the post?", "old_fittings", "fixed", "unknown"),
        ("Does the post curve over at the top?", "post_line", "gooseneck", "unknown"),
    ],
)
def test_a_question_says_what_yes_and_no_mean(heading: str, column: str, yes: str, no: str) -> None:
    asked = question_of(heading, column)
    assert asked is not None
    assert (asked.yes, asked.no) == (yes, no)


def test_what_asks_for_a_choice_is_no_question_of_yes_and_no() -> None:
    assert question_of("Is the post straight or does it bend over?", "post_line") is None


def test_answers_of_a_form_are_read() -> None:
    heads = ["Timestamp", "Email address", "Which school do you look after?", "Which post are you telling us about?",
             "Is the post round or square?", "How wide is the post, in millimetres?",
             "How tall is the post from the ground to the very top, in metres?", "Is anything welded to the post?"]  # fmt: skip
    rows = [["2026-03-01", "a@oak.example", "Oakwell Juniors", "far end", "Round", 89, 2.95, "No"],
            ["2026-03-01", "a@oak.example", "Oakwell Juniors", "near end", "Square", 100, 3.1, "Yes"]]  # fmt: skip
    got = check_book(book(sheet([heads, *rows])), "a.csv", documented_policy())
    assert [(r.site_name, r.post_code, r.post_shape, r.old_fittings, r.held) for r in got.rows] == [
        ("Oakwell Juniors", "far end", "round", "unknown", False), ("Oakwell Juniors", "near end", "square", "fixed", False),
    ]  # fmt: skip
    assert [(r.post_size, r.post_height) for r in got.rows] == [
        (pytest.approx(0.089), pytest.approx(2.95)), (pytest.approx(0.1), pytest.approx(3.1)),
    ]  # fmt: skip


def test_more_posts_than_the_one_of_a_row_are_asked_about() -> None:
    heads = ["School", "Post", "Shape", "OD (mm)", "Height (m)", "How many more posts are exactly the same?"]
    rows = [["Elm School", str(n), "round", 89, 3, more] for n, more in enumerate((0, "none", 2), 1)]
    got = check_book(book(sheet([heads, *rows])), "a.csv", documented_policy())
    assert [r.held for r in got.rows] == [False, False, True]
    assert [(q.code, q.cell, q.name) for q in got.queries if q.holds_row] == [("CONFLICT", "F4", "quantity")]


NUMBERED = [
    ["(1)", "(2)", "(3)", "(4)", "(5)"],
    [1, 2, 3, 4, 5],
    ["a", "b", "c", "d", "e"],
    ["Col 1", "Col 2", "Col 3", "Col 4", "Col 5"],
]


@pytest.mark.parametrize("numbers", NUMBERED, ids=str)
@pytest.mark.parametrize("units", [None, ["", "No.", "R/S", "mm", "m"]], ids=str)
def test_rows_of_column_numbers_and_of_units_are_no_posts(numbers: list[Any], units: list[Any] | None) -> None:
    size, height = ("Outside size", "Height") if units else ("Outside size (mm)", "Height (m)")
    under = [numbers, units] if units else [numbers]
    rows = [["School", "Post", "Shape", size, height], *under, ["Elm", "1", "round", 114, 3.1], ["Elm", "2", "square", 90, 2.9]]
    got = check_book(book(sheet(rows)), "a.xlsx", documented_policy())
    assert [(r.post_code, r.post_size, r.post_height, r.held) for r in got.rows] == [
        ("1", pytest.approx(0.114), pytest.approx(3.1), False), ("2", pytest.approx(0.09), pytest.approx(2.9), False),
    ]  # fmt: skip


def test_a_row_of_figures_that_are_no_running_numbers_is_a_post() -> None:
    rows = [["Site", "Post", "Shape", "Size (mm)", "Height (m)"], [1, 2, "round", 89, 3]]
    got = check_book(book(sheet([["Elm School"], *rows])), "a.xlsx", documented_policy())
    assert len(got.rows) == 1


SO_MANY = [("2 of these", 2), ("Pair of these, bolts rusty", 2), ("three of these", 3), ("2 of these leaning", 1),
           ("1 of these", 1), ("2 brackets", 1), ("2 of these; 3 of them", 1), ("x2", None)]  # fmt: skip


@pytest.mark.parametrize(("notes", "number"), SO_MANY)
def test_a_remark_says_how_many_posts_a_row_is_where_it_says_nothing_else(notes: str, number: int | None) -> None:
    rows = [["School", "Post", "Shape", "OD (mm)", "Height (m)", "Notes"], ["Elm", "A", "round", 89, 3, notes]]
    row = check_book(book(sheet(rows)), "a.xlsx", documented_policy()).rows[0]
    assert row.quantity == number
    assert [o.how for o in row.origins if o.name == "quantity"] == (["remark"] if (number or 1) > 1 else [])


def test_a_number_behind_what_is_measured_names_no_post() -> None:
    heads = ["School", "Shape", "OD (mm)", "Height (m)", "No."]
    made = [[school, "round", 89 + n, 3, n] for school, n in (("Elm", 2), ("Elm", 1), ("Oak", 4))]
    got = check_book(book(sheet([heads, *made])), "a.csv", documented_policy())
    assert all(r.held for r in got.rows)
    assert [q.code for q in got.queries if not q.holds_row] == ["HEADING"]
    again = [[school, "round", 89 + i, 3, n] for i, (school, n) in enumerate((("Elm", 2), ("Oak", 2), ("Ash", 1)))]
    got = check_book(book(sheet([heads, *again])), "a.csv", documented_policy())
    assert [(r.quantity, r.held) for r in got.rows] == [(2, False), (2, False), (1, False)]


def test_a_number_of_posts_behind_a_grounds_name_is_no_part_of_it() -> None:
    heads, row = ["Post", "Shape", "OD (mm)", "Height (m)"], ["1", "round", 89, 3]
    rows = [["Venue: Priory Park (2 posts)"], heads, row, ["Venue: Abbey School (1 post)"], heads, row]
    got = check_book(book(sheet(rows)), "a.xlsx", documented_policy())
    assert sorted(r.site_name for r in got.rows) == ["Abbey School", "Priory Park"]


def test_what_hangs_on_a_post_and_how_it_is_held_in_two_columns() -> None:
    heads = ["School", "Post", "Shape", "OD (mm)", "Height (m)", "Old fittings", "Fittings attached"]
    rows = [["Elm", "1", "round", 89, 3, "backboard", "bolted"], ["Elm", "2", "round", 89, 3, "bracket", "welded"],
            ["Elm", "3", "round", 89, 3, "none", "welded"]]  # fmt: skip
    got = check_book(book(sheet([heads, *rows])), "a.xlsx", documented_policy())
    assert [(r.old_fittings, r.held) for r in got.rows] == [("removable", False), ("fixed", False), (None, True)]


POSTAL = [("Postcode", ["AB1 2CD", "AB10 3EF"], False), ("Postcode", [2600, 2601], False), ("Post code", ["N", "S"], True),
          ("Postcode", ["P1", "P2"], True), ("Postcode", ["K1A 0B1", "D02 X285"], False)]  # fmt: skip


@pytest.mark.parametrize(("heading", "cells", "names"), POSTAL)
def test_a_postal_code_names_no_post(heading: str, cells: list[Any], names: bool) -> None:
    heads = ["School", heading, "Shape", "OD (mm)", "Height (m)"]
    rows = [["Elm", cell, "round", 89 + n, 3] for n, cell in enumerate(cells)]
    got = check_book(book(sheet([heads, *rows])), "a.csv", documented_policy())
    assert [r.post_code in map(str, cells) for r in got.rows] == [names] * 2
    assert not any(r.held for r in got.rows)


EXPORTED = [
    ("Attr: Shape", "post_shape"), ("group_post/shape", "post_shape"), ("group_post/height_m", "post_height"),
    ("Attribute: Outside dimension (mm)", "post_size"), ("Custom field: Post shape", "post_shape"),
    ("group_board/height_m", None), ("ring_details/height_m", None), ("Board details/height", None), ("Height (of board)", None),
    ("Postcode of school", None), ("School and post", "site_name"),
    ("Which post is this? (e.g. north)", "post_code"), ("Post reference (from the site plan)", "post_code"),
]  # fmt: skip


@pytest.mark.parametrize(("heading", "name"), EXPORTED)
def test_what_an_export_or_a_form_writes_round_a_heading_changes_nothing(heading: str, name: str | None) -> None:
    known = claim(heading)
    assert (known.name if known else None) == name


def test_how_it_is_fixed_is_said_of_what_hangs_on_the_post() -> None:
    heads = ["School", "Post", "Shape", "OD (mm)", "Height (m)", "What is still fixed to the post?", "How is it fixed?"]
    rows = [["Elm", "1", "round", 89, 3, "Backboard", "Bolted"], ["Elm", "2", "round", 89, 3, "Backboard", "Welded"],
            ["Elm", "3", "round", 89, 3, "Nothing", "Base plate"]]  # fmt: skip
    got = check_book(book(sheet([heads, *rows])), "a.xlsx", documented_policy())
    assert [(r.old_fittings, r.post_base) for r in got.rows] == [
        ("removable", "unknown"),
        ("fixed", "unknown"),
        ("none", "base plate"),
    ]
