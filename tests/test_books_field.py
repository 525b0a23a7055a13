"""The field sheet: what a foreman needs, and a table that can be read when it comes back."""

from __future__ import annotations

import warnings
from dataclasses import replace

import pytest
from books_made import kit, post, report, setting, small, survey_row
from books_open import opened, words

from pipeline.intake.query import Query
from pipeline.sheets import show
from pipeline.sheets.customer_posts import ring as customer_ring
from pipeline.sheets.field_report import field_report, questions
from pipeline.sheets.field_sheet import PROPERTY, field_workbook
from schemas.survey import SURVEY
from schemas.words import CAUTION

HEADINGS = ["Post", "Question", "Column", "Read as", "New reading", "With", "By", "On"]
"""Source: contract section 5."""


def made(site=None):
    return field_report(site or small(), setting().items, "3f2a9c51", "postquote 0.1.0", "Letter")


@pytest.mark.parametrize("site", [small(), report(()), report((post("1"),), feet=False)])
def test_every_field_sheet_is_whole(site):
    with warnings.catch_warnings():
        warnings.simplefilter("error")
        data = field_workbook(made(site))
        book = opened(data)
    assert book.sheetnames == ["Set-out", "Check"]
    assert data == field_workbook(made(site))
    assert book.custom_doc_props[PROPERTY].value == "3f2a9c51"
    assert all(CAUTION in words(book, sheet) for sheet in book.sheetnames)


def test_set_out_says_how_to_hang_it():
    text = words(opened(field_workbook(made())), "Set-out")
    for part in (
        "Post 4 (1 post): round 3 1/2 in, 7 ft above the ground",
        "1 x Sleeve extension, 24 in (EX-24)",
        "2 in below the top of the post; 8 ft 10 in above the ground",
        "10 ft: setting 1 of 6 from the top, steps of 6 in",
        "9 ft 6 1/8 in above the court",
        "as the maker of the mount says",
        "3: The storm case uses 142 % of the rough strength.",
    ):
        assert part in text, part


@pytest.mark.parametrize(("feet", "ring", "down"), [(True, "9 ft 11 15/16 in", "1 ft 11 15/16 in"), (False, "3047 mm", "608 mm")])
def test_the_ring_is_never_set_out_higher_than_it_reaches(feet, ring, down):
    site = report((replace(post("1"), kits=(kit(5, top=3.04733, lowest=2.43888),)),), feet=feet)
    text = words(opened(field_workbook(made(site))), "Set-out")
    assert f"{ring}: highest setting; goes down {down} without steps" in text
    (fitted,) = made(site).fitted
    assert customer_ring(fitted.assembly, feet) == f"{'8 ft 1/16 in' if feet else '2439 mm'} to {ring}"


def test_each_thing_to_confirm_is_a_row_with_its_own_column():
    asked = list(questions(small()))
    assert [(q.post, q.column) for q in asked] == [
        ("3", "Post size"), ("3", "Wall thickness"), ("3", "Strength cleared"),
        ("4", "Wall thickness"), ("4", "Strength cleared"), ("8", "Wall thickness"), ("8", "Strength cleared"),
    ]  # fmt: skip
    assert asked[0].tools == SURVEY.column("measured_with").values
    assert asked[2].choices == ("yes", "no")
    assert asked[2].who == "a licensed engineer, and nobody else"


def test_a_query_that_holds_nothing_is_asked_on_site():
    query = Query("a.xlsx", "Posts", "K3", "IMPLAUSIBLE", "A wall of 40 mm.", "Measure it.", False, "ALDER", "1", "wall")
    row = survey_row("1", typed={"wall": "40 mm"})
    (asked,) = questions(report((replace(post("1"), row=row),), queries=(query,)))
    assert (asked.column, asked.asks, asked.read_as) == ("Wall thickness", "A wall of 40 mm.", "not known (typed: 40 mm)")


def test_the_table_of_check_has_its_headings_and_lists():
    sheet = opened(field_workbook(made()))["Check"]
    table = sheet.tables["check"]
    assert [c.value for c in sheet[table.ref][0]] == HEADINGS
    assert {v.formula1 for v in sheet.data_validations.dataValidation if v.type == "list"} >= {'"yes,no"'}


def test_lengths_to_measure_off():
    # Source: international inch (NIST SP 811); contract: to 1/8 in or 5 mm
    assert show.set_out(2.4413, True) == "8 ft 1/8 in"
    assert show.set_out(2.4413, False) == "2440 mm"
    assert kit().lowered == 0.05
