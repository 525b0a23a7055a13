"""What shows only across rows and files, whatever their order."""

from __future__ import annotations

import itertools
import random
from dataclasses import replace
from typing import Any

from survey_books import CLEAN, book, survey

from pipeline.intake.catalogue import documented_policy
from pipeline.intake.survey.across import spelling
from pipeline.intake.survey.check import read_file
from pipeline.intake.survey.fault import RowRead
from pipeline.intake.survey.gate import check_rows

POLICY = documented_policy()


def rows(file: str, *changes: dict[str, Any]) -> list[RowRead]:
    return list(read_file(book(survey([CLEAN | c for c in changes])), file).rows)


def settled(read: list[RowRead]) -> tuple[set[str], set[str], list[tuple[Any, ...]]]:
    """Places replaced, places held, queries; the same in every order of the rows."""
    answers = []
    orders = (
        itertools.permutations(range(len(read)))
        if len(read) < 4
        else (random.sample(range(len(read)), len(read)) for _ in range(8))
    )
    for order in orders:
        got = check_rows([read[i] for i in order], POLICY)
        place = lambda r: f"{r.file}:{r.row}"  # noqa: E731
        replaced = {place(got.rows[i]) for i in got.replaced}
        held = {place(r) for i, r in enumerate(got.rows) if r.held and i not in got.replaced}
        answers.append((replaced, held, [(q.file, q.cell, q.code, q.holds_row) for q in got.queries]))
    assert all(a == answers[0] for a in answers)
    return answers[0]


def test_rows_that_say_the_same_are_read_once_and_it_is_said() -> None:
    got = settled([*rows("b2.xlsx", {}), *rows("b10.xlsx", {"post_height": "102 in", "notes": "again", "site_code": "s-01 "})])
    assert got == ({"b10.xlsx:2"}, set(), [("b10.xlsx", "E2", "DUPLICATE", False)])


def test_rows_of_two_courts_are_two_places_though_nobody_asks_for_the_court() -> None:
    twice = rows("a", {}, {})
    courts = [replace(r, row=replace(r.row, extra={"Court": f"Court {n}"})) for n, r in enumerate(twice, 1)]
    assert settled(courts)[:2] == (set(), {"a:2", "a:3"})
    assert settled([courts[0], replace(courts[0], row=replace(courts[0].row, row=9))])[0] == {"a:9"}


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
    assert [q[2] for q in got[2]] == ["DUPLICATE", "MISSING", "DUPLICATE", "MISSING"]


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
    many = rows("a", {}, {"post_code": "P2", "customer": "Other"})
    assert settled(many) == (set(), {"a:2", "a:3"}, [("a", "C2", "CONFLICT", True), ("a", "C3", "CONFLICT", True)])


def test_posts_without_a_code_are_numbered_and_are_nobodys_twins() -> None:
    read = rows("a", {"post_code": None}, {"post_code": "2"}, {"post_code": None})
    assert [r.post_code for r in check_rows(read, POLICY).rows] == ["1", "2", "3"]
    assert [(o.name, o.cell, o.how) for o in check_rows(read, POLICY).rows[0].origins] == [("post_code", "E2", "made")]


def test_the_later_word_counts_even_while_it_is_held() -> None:
    old, new = {"surveyed_on": "2026-02-20"}, {"surveyed_on": "2026-03-01", "post_height": 9}
    assert settled([*rows("b", old), *rows("a", new)]) == ({"b:2"}, set(), [])
    got = settled([*rows("b", old), *rows("a", new | {"post_height": None})])
    assert got == ({"b:2"}, {"a:2"}, [("a", "M2", "MISSING", True)])


def test_a_row_without_a_day_replaces_nothing() -> None:
    got = settled([*rows("b", {}), *rows("a", {"surveyed_on": None, "post_height": 9})])
    assert got[:2] == (set(), {"a:2", "b:2"})


def test_a_site_without_a_code_takes_the_one_of_its_name_and_customer_or_has_one_made() -> None:
    read = [
        *rows("a", {}),
        *rows("b", {"site_code": None, "post_code": "P2"}),
        *rows("c", {"site_code": None, "customer": "Other"}),
    ]
    codes = [r.site_code for r in check_rows(read, POLICY).rows]
    assert codes[:2] == ["S-01", "S-01"]
    assert codes[2].startswith("BIRCH-LANE-SCHOOL-")
    again = check_rows(rows("d", {"site_code": None, "customer": None}), POLICY).rows[0].site_code
    assert again not in codes


def test_the_spelling_shown_is_the_first_in_natural_order() -> None:
    assert spelling(["s-01", "S-01", " S-01"]) == "S-01"
