"""Every kind of fault in otherwise clean surveys: found at its own cell, and no clean row held."""

from __future__ import annotations

import random
from typing import Any

import pytest
from survey_books import CLEAN, Special, book, survey
from survey_checked import check_book

from pipeline.intake.catalogue import documented_policy
from pipeline.reading.book import address
from schemas.survey import SURVEY

POLICY = documented_policy()
SQUARE = {"post_shape": "square", "post_size": 4, "size_basis": "outside width", "wall": 0.25}
BY_C = {"size_basis": "circumference", "post_size": 11, "measured_with": "tape round the post"}

# name of the column at fault, what stands there, code, other cells of the row
FAULTS: tuple[tuple[str, Any, str, dict[str, Any]], ...] = (
    *((c.name, None, "MISSING", {}) for c in SURVEY.columns if c.needed),
    ("post_size", "about 3.5 in", "UNREADABLE", {}),
    ("post_size", "3 to 4 in", "UNREADABLE", {}),
    ("post_size", '11/2"', "UNREADABLE", {}),
    ("post_height", "8-9 ft", "UNREADABLE", {}),
    ("post_height", "~8.5 ft", "UNREADABLE", {}),
    ("post_height", "102 in (2.7 m)", "UNREADABLE", {}),
    ("post_height", "85 lb", "UNREADABLE", {}),
    ("post_height", "tall", "UNREADABLE", {}),
    ("post_height", float("nan"), "UNREADABLE", {}),
    ("post_height", True, "UNREADABLE", {}),
    ("wall", "thick", "UNREADABLE", {}),
    ("footing_depth", "?", "UNREADABLE", {}),
    ("ring_heights", "8, 10", "UNREADABLE", {}),
    ("ring_heights", "8 to 10", "UNREADABLE", {}),
    ("lean", "a bit", "UNREADABLE", {}),
    ("court_rise", "n/a", "UNREADABLE", {}),
    ("clear_length", "unknown", "UNREADABLE", {}),
    ("surveyed_on", "3/4/26", "UNREADABLE", {}),
    ("surveyed_on", "spring 2026", "UNREADABLE", {}),
    ("surveyed_on", 2026, "UNREADABLE", {}),
    ("strength_cleared", "perhaps", "NOT_IN_LIST", {}),
    ("cleared_moment", "a lot", "UNREADABLE", {}),
    ("quantity", "several", "UNREADABLE", {}),
    ("quantity", 1.5, "UNREADABLE", {}),
    ("wind_speed", "strong", "UNREADABLE", {}),
    ("ring_heights", "8 ft or 10 ft", "UNREADABLE", {}),
    ("post_size", Special("date", "2002-03-01", "1-Mar"), "DATE_CELL", {}),
    ("post_height", Special("date", "2026-08-06"), "DATE_CELL", {}),
    ("post_code", Special("date", "2026-01-02"), "DATE_CELL", {}),
    ("post_height", "6-Aug", "DATE_CELL", {}),
    ("quantity", "2-Jan", "DATE_CELL", {}),
    ("post_line", Special("date", "2026-01-02"), "DATE_CELL", {}),
    ("post_height", Special("error", "#N/A"), "ERROR_CELL", {}),
    ("lean", Special("error", "#DIV/0!"), "ERROR_CELL", {}),
    ("court_rise", Special("no_result"), "ERROR_CELL", {}),
    ("customer", Special("error", "#REF!"), "ERROR_CELL", {}),
    ("notes", Special("error", "#NAME?"), "ERROR_CELL", {}),
    ("post_shape", "octagonal", "NOT_IN_LIST", {}),
    ("post_shape", "round?", "NOT_IN_LIST", {}),
    ("post_line", "wavy", "NOT_IN_LIST", {}),
    ("old_fittings", "yes", "NOT_IN_LIST", {}),
    ("condition", "rusty", "NOT_IN_LIST", {}),
    ("post_base", "n/a", "NOT_IN_LIST", {}),
    ("measured_with", "tape", "NOT_IN_LIST", {}),
    ("exposure", "E", "NOT_IN_LIST", {}),
    ("soil_class", 6, "NOT_IN_LIST", {}),
    ("soil_class", -4, "NOT_IN_LIST", {}),
    ("site_kind", "hospital", "NOT_IN_LIST", {}),
    ("material", False, "NOT_IN_LIST", {}),
    ("size_basis", "inside diameter", "NOT_IN_LIST", {}),
    ("post_size", 35, "IMPLAUSIBLE", {}),
    ("post_size", -3.5, "IMPLAUSIBLE", {}),
    ("post_size", 1.5, "IMPLAUSIBLE", {"wall": None}),
    ("post_height", 102, "IMPLAUSIBLE", {}),
    ("post_height", "4 ft", "IMPLAUSIBLE", {"clear_length": None}),
    ("wall", 0.9, "IMPLAUSIBLE", {}),
    ("wall", "0.5 mm", "IMPLAUSIBLE", {}),
    ("lean", 25, "IMPLAUSIBLE", {}),
    ("lean", -1, "IMPLAUSIBLE", {}),
    ("court_rise", 40, "IMPLAUSIBLE", {}),
    ("clear_length", 103, "IMPLAUSIBLE", {}),
    ("ring_heights", "8 ft; 12 ft", "IMPLAUSIBLE", {}),
    ("quantity", 0, "IMPLAUSIBLE", {}),
    ("quantity", 501, "IMPLAUSIBLE", {}),
    ("wind_speed", 300, "IMPLAUSIBLE", {}),
    ("least_board_width", 5, "IMPLAUSIBLE", {}),
    ("post_to_end_line", 30, "IMPLAUSIBLE", {}),
    ("footing_diameter", 4, "IMPLAUSIBLE", {}),
    ("footing_depth", 300, "IMPLAUSIBLE", {}),
    ("size_basis", "circumference", "CONFLICT", SQUARE | {"size_basis": "circumference", "post_size": 11}),
    ("size_basis", "nominal pipe size", "CONFLICT", SQUARE | {"size_basis": "nominal pipe size", "post_size": 3}),
    ("post_size", "NPS 3", "CONFLICT", SQUARE | {"size_basis": None}),
    ("size_basis", "circumference", "CONFLICT", {"post_size": "NPS 3"}),
    ("post_size", "NPS 3", "CONFLICT", {"size_basis": "outside diameter"}),
    ("post_size", "DN 125", "CONFLICT", {"size_basis": None}),
)

HELD_BY = {
    "site_code", "site_name", "post_shape", "post_size", "size_basis", "post_height", "quantity", "ring_heights", "court_rise",
}  # fmt: skip
"""What nothing can do without. Source: contract section 2."""

WITHOUT_UNIT = ("post_size", "wall", "post_height", "court_rise", "clear_length", "ring_heights", "wind_speed", "lean")


def clean_rows() -> list[dict[str, Any]]:
    """Clean rows of several kinds."""
    rows = [CLEAN, CLEAN | SQUARE, CLEAN | BY_C, CLEAN | {"post_size": "NPS 3 sch 40", "size_basis": None, "wall": None}]
    return [dict(r, post_code=f"P{n}") for n, r in enumerate(rows, 1)]


@pytest.mark.parametrize("seed", [0, *(pytest.param(seed, marks=pytest.mark.slow) for seed in range(1, 6))])
def test_each_fault_is_found_at_its_own_cell_and_holds_its_row_only(seed: int) -> None:
    names = list(SURVEY.names)
    random.Random(seed).shuffle(names)
    for name, value, code, others in FAULTS:
        bad = CLEAN | others | {"post_code": "bad"} | {name: value}
        rows = clean_rows()
        rows.insert(seed % 4, bad)
        got = check_book(book(survey(rows, names)), "a.xlsx", POLICY)
        at = address(2 + seed % 4, names.index(name) + 1)
        assert (at, code) in {(q.cell, q.code) for q in got.queries}, (name, value, got.queries)
        holds = code == "CONFLICT" or name in HELD_BY
        assert [r.held for r in got.rows] == [n == seed % 4 and holds for n in range(5)], (name, value, got.queries)
        assert name in got.rows[seed % 4].unread or code in ("MISSING", "CONFLICT")
        expected = (
            {at} if code != "CONFLICT" else {address(2 + seed % 4, names.index(n) + 1) for n in ("post_size", "size_basis")}
        )
        assert {q.cell for q in got.queries} <= expected, (name, value, got.queries)
        assert all(q.holds_row == holds and q.message and q.suggestion for q in got.queries)


@pytest.mark.parametrize("name", WITHOUT_UNIT)
def test_a_number_without_a_unit_is_never_guessed(name: str) -> None:
    column = SURVEY.column(name)
    row = CLEAN | {name: 0.5 if name == "lean" else 8}
    got = check_book(book(survey([row], headings={name: column.heading})), "a.xlsx", POLICY)
    assert [(q.code, q.cell, q.name) for q in got.queries] == [("NO_UNIT", got.rows[0].cells[name], name)]


def test_all_faults_of_a_row_come_at_once() -> None:
    bad = CLEAN | {"post_code": None, "post_height": "8-9 ft", "post_shape": "oval", "wall": 3, "quantity": 0, "lean": 40}
    got = check_book(book(survey([bad])), "a.xlsx", POLICY)
    assert {q.name: q.code for q in got.queries} == {
        "post_height": "UNREADABLE", "post_shape": "NOT_IN_LIST", "wall": "IMPLAUSIBLE",
        "quantity": "IMPLAUSIBLE", "lean": "IMPLAUSIBLE",
    }  # fmt: skip
    assert all((q.site_code, q.post_code) == ("S-01", "1") for q in got.queries)


SUGGESTED = (
    ("post_height", 102, "102 in"),
    ("post_height", 2590, "2590 mm"),
    ("post_height", "259", "259 cm"),
    ("post_size", 88.9, "88.9 mm"),
    ("wind_speed", 300, "300 km/h"),
    ("post_height", Special("date", "2026-08-06"), "8 ft 6 in"),
    ("post_size", Special("date", "2002-03-01"), "3 1/2 in"),
    ("post_code", Special("date", "2026-08-06"), "'8-6"),
    ("post_size", "1-Mar-02", "3 1/2 in"),
    ("post_line", "strait", "straight"),
    ("post_shape", "suqare", "square"),
    ("old_fittings", "none?", "none"),
)


@pytest.mark.parametrize(("name", "value", "suggestion"), SUGGESTED)
def test_the_suggestion_can_be_pasted_in(name: str, value: Any, suggestion: str) -> None:
    got = check_book(book(survey([CLEAN | {name: value}])), "a.xlsx", POLICY)
    assert [q.suggestion for q in got.queries if q.name == name] == [suggestion]
    if not suggestion.startswith("'"):
        mended = check_book(book(survey([CLEAN | {name: suggestion}])), "a.xlsx", POLICY)
        assert not [q for q in mended.queries if q.name == name]


def test_a_round_size_that_is_plausible_as_a_circumference_says_so() -> None:
    got = check_book(book(survey([CLEAN | {"post_size": 14.5}])), "a.xlsx", POLICY)
    assert "circumference" in got.queries[0].message
    assert "117.2 mm" in got.queries[0].message
