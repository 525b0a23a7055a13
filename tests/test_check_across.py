"""What shows only across rows and files, whatever their order."""

from __future__ import annotations

import itertools
import random
from typing import Any

from survey_books import CLEAN, book, survey

from pipeline.intake.settings import documented
from pipeline.intake.survey.across import row_key, settle, spelling
from pipeline.intake.survey.check import check_book
from pipeline.intake.survey.survey_row import SurveyRow

POLICY = documented()


def rows(file: str, *changes: dict[str, Any]) -> list[SurveyRow]:
    return list(check_book(book(survey([CLEAN | c for c in changes])), file, POLICY).rows)


def settled(all_rows: list[SurveyRow]) -> tuple[set[str], set[str], list[tuple[Any, ...]]]:
    """Places dropped, places held, queries; the same in every order of the rows."""
    answers = []
    orders = (
        itertools.permutations(range(len(all_rows)))
        if len(all_rows) < 5
        else (random.sample(range(len(all_rows)), len(all_rows)) for _ in range(20))
    )
    for order in orders:
        drop, hold, queries = settle([row_key(all_rows[i], i) for i in order])
        place = lambda s: {f"{all_rows[i].file}:{all_rows[i].row}" for i in s}  # noqa: E731
        answers.append((place(drop), place(hold), [(q.file, q.cell, q.code, q.holds_row) for q in queries]))
    assert all(a == answers[0] for a in answers)
    return answers[0]


def test_rows_that_say_the_same_are_read_once_and_it_is_said() -> None:
    got = settled([*rows("b2.xlsx", {}), *rows("b10.xlsx", {"post_height": "102 in", "notes": "again", "site_code": "s-01 "})])
    assert got == ({"b10.xlsx:2"}, set(), [("b10.xlsx", "E2", "DUPLICATE", False)])


def test_rows_that_differ_are_all_held_at_their_post_cell() -> None:
    got = settled([*rows("a", {}, {"post_code": "p1", "post_height": 9}, {"post_code": "P2"}), *rows("b", {})])
    assert got[0] == set()
    assert got[1] == {"a:2", "a:3", "b:2"}
    assert got[2] == [("a", "E2", "DUPLICATE", True), ("b", "E2", "DUPLICATE", True), ("a", "E3", "DUPLICATE", True)]


def test_a_court_level_that_was_stated_says_more_than_a_blank() -> None:
    assert settled(rows("a", {"court_rise": None}, {"court_rise": 0}))[1] == {"a:2", "a:3"}


def test_a_held_row_that_stands_twice_is_asked_about_too() -> None:
    got = settled(rows("a", {"post_height": None}, {"post_height": None}))
    assert got[0] == set()
    assert [q[2:] for q in got[2]] == [("DUPLICATE", True), ("DUPLICATE", True)]


def test_rows_of_a_site_that_contradict_each_other() -> None:
    many = rows(
        "a",
        {},
        {"post_code": "P2", "site_name": "BIRCH  LANE school"},
        {"post_code": "P3", "site_name": "Birch Park"},
        {"post_code": "P4", "customer": None},
    )
    assert settled(many) == (set(), {"a:4"}, [("a", "B4", "CONFLICT", True)])


def test_on_a_tie_all_rows_that_state_it_are_held() -> None:
    many = rows("a", {}, {"post_code": "P2", "customer": "Other"}, {"post_code": "P3", "customer": None})
    assert settled(many) == (set(), {"a:2", "a:3"}, [("a", "C2", "CONFLICT", True), ("a", "C3", "CONFLICT", True)])


def test_a_row_without_codes_is_nobodys_twin() -> None:
    assert settled(rows("a", {"post_code": None}, {"post_code": None})) == (set(), set(), [])


def test_the_spelling_shown_is_the_first_in_natural_order() -> None:
    assert spelling(["s-01", "S-01", " S-01"]) == "S-01"
