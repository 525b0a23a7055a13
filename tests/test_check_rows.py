"""Rows: what counts as a post, what blanks mean, what is kept beside the values."""

from __future__ import annotations

import math
from typing import Any

import pytest
from survey_books import CLEAN, HEADINGS, Special, book, sheet, survey
from survey_checked import check_book, check_path

from pipeline.intake.catalogue import documented_policy
from pipeline.intake.survey.survey_row import stated
from pipeline.reading.book import address
from schemas.survey import SURVEY

POLICY = documented_policy()
VALUES = [CLEAN[c.name] for c in SURVEY.columns]
NEEDED = {c.name: CLEAN[c.name] for c in SURVEY.columns if c.needed or c.name in ("site_code", "site_name", "post_code")}
FT = 0.3048  # exact by definition. Source: NIST SP 811 (2008), B.6


def check(*rows: dict[str, Any], **more: Any) -> Any:
    return check_book(book(survey(rows, **more)), "a.xlsx", POLICY)


def test_a_row_with_needed_cells_only_takes_the_documented_defaults() -> None:
    (row,) = check(NEEDED).rows
    assert not row.held
    assert stated(row) == {
        "site_code": "S-01", "site_name": "Birch Lane School", "post_code": "P1", "quantity": 1, "post_shape": "round",
        "post_size": 0.0889, "size_basis": "outside diameter", "measured_with": "rule across", "material": "unknown",
        "post_height": 2.5908, "height_measured_with": "tape", "court_rise": 0.0, "clear_length": 2.5908,
        "post_line": "unknown", "post_base": "unknown", "lean": 0.0, "old_fittings": "unknown", "condition": "unknown",
        "lean_shimmed": "no",
    }  # fmt: skip
    assert row.not_stated == (
        "quantity", "size_basis", "measured_with", "material", "height_measured_with", "court_rise", "clear_length",
        "post_line", "post_base", "lean", "old_fittings", "condition", "ring_heights", "footing_diameter", "soil_class",
        "wind_speed", "exposure", "lean_shimmed",
    )  # fmt: skip
    assert set(row.cells) == set(SURVEY.names)
    assert row.typed["post_height"] == "8.5 ft"
    assert row.units == {"post_size": "in", "post_height": "ft"}


READ = (
    ("post_size", "NPS 3", {"size_basis": None}, 0.0889),
    ("post_size", 3, {"size_basis": "nominal pipe size"}, 0.0889),
    ("post_size", "3 in sch 40", {"size_basis": "nominal"}, 0.0889),
    ("post_size", "DN 80", {"size_basis": None}, 0.0889),
    ("post_size", 11, {"size_basis": "circumference"}, 11 * 0.0254 / math.pi),
    ("post_size", "3-1/2 in OD", {}, 0.0889),
    ("post_size", "88.9 mm", {"size_basis": None}, 0.0889),
    ("post_size", 4, {"post_shape": "square", "size_basis": "outside diameter"}, 0.1016),
    ("post_size", 3.5, {"size_basis": "outside width"}, 0.0889),
    ("post_height", "8'6\"", {}, 2.5908),
    ("post_height", "2,59 m", {}, 2.59),
    ("post_height", Special("number", 2590, unit="mm"), {}, 2.59),
    ("court_rise", -4, {}, -0.1016),
    ("lean", "1:100", {}, math.atan(0.01)),
    ("lean", Special("number", 2, unit="%"), {}, math.atan(0.02)),
    ("lean", Special("number", 0.02, unit="100 %"), {}, math.atan(0.02)),
    ("ring_heights", 10, {}, (3.048,)),
    ("surveyed_on", "14 March 2026", {}, "2026-03-14"),
    ("surveyed_on", "2026-03-14", {}, "2026-03-14"),
    ("surveyed_on", Special("date", "2026-03-14 00:00:00"), {}, "2026-03-14"),
    ("strength_cleared", "Yes", {}, "yes"),
    ("cleared_moment", "6 kN m", {}, 6000.0),
    ("quantity", "4 posts", {}, 4),
    ("soil_class", "4", {}, 4),
    ("exposure", "b", {}, "B"),
    ("material", "Aluminum", {}, "aluminium"),
    ("post_line", "goose-neck", {}, "gooseneck"),
    ("post_base", "Set in concrete", {}, "cast in"),
    ("post_code", 12.0, {}, "12"),
    ("post_code", " P  7 ", {}, "P 7"),
    ("post_code", Special("number", 7, shown="P-007"), {}, "P-007"),
    ("mount_asked", "m-1", {}, "m-1"),
    ("notes", Special("date", "2026-05-01", "1 May"), {}, "1 May"),
)


@pytest.mark.parametrize(("name", "value", "others", "expected"), READ)
def test_a_good_cell_is_read(name: str, value: Any, others: dict[str, Any], expected: Any) -> None:
    got = check(CLEAN | others | {name: value})
    assert not got.queries
    assert getattr(got.rows[0], name) == (pytest.approx(expected, abs=1e-12) if isinstance(expected, float) else expected)


def test_a_schedule_gives_the_wall_where_that_cell_is_blank_and_it_is_said() -> None:
    """Source: ASME B36.10M table 1: NPS 3 schedule 40 has a wall of 5.49 mm."""
    blank = check(CLEAN | {"post_size": "NPS 3 sch 40", "size_basis": None, "wall": None}).rows[0]
    assert blank.wall == pytest.approx(0.00549, abs=1e-5)
    assert any("wall" in s for s in blank.remarks)
    assert blank.size_nominal is True
    stated = check(CLEAN | {"post_size": "NPS 3 sch 40", "size_basis": None, "wall": 0.2}).rows[0]
    assert stated.wall == pytest.approx(0.00508)


@pytest.mark.parametrize(
    ("name", "text"),
    [
        ("wall", "n/a"),
        ("wall", "unknown"),
        ("least_board_width", "-"),
        ("mount_asked", "none"),
        ("customer", "—"),
        ("post_to_end_line", "not measured"),
    ],
)
def test_a_cell_that_says_nothing_is_blank_only_where_a_blank_takes_no_default(name: str, text: str) -> None:
    got = check(CLEAN | {name: text})
    assert not got.queries
    assert getattr(got.rows[0], name) is None


EDGES = (
    ("post_size", "40 mm", "39.99 mm", {"wall": None}),
    ("post_size", "350 mm", "350.01 mm", {}),
    ("post_height", "1.5 m", "1.499 m", {"clear_length": None}),
    ("post_height", "6 m", "6.001 m", {}),
    ("lean", "20 deg", "20.1 deg", {}),
    ("lean", "0 deg", "-0.1 deg", {}),
    ("wall", "1 mm", "0.99 mm", {}),
    ("wall", "25 mm", "25.1 mm", {"post_size": "300 mm"}),
    ("wall", "17.78 mm", "17.8 mm", {}),
    ("clear_length", "102 in", "102.1 in", {}),
    ("court_rise", "1 m", "1.001 m", {}),
    ("court_rise", "-1 m", "-1.001 m", {}),
    ("ring_heights", "1.8 m; 3.1 m", "1.79 m; 3.1 m", {}),
    ("ring_heights", "3.1 m", "3.11 m", {}),
    ("quantity", 500, 501, {}),
    ("wind_speed", "15 m/s", "14.9 m/s", {}),
    ("wind_speed", "110 m/s", "110.1 m/s", {}),
    ("least_board_width", "0.5 m", "0.499 m", {}),
    ("least_board_width", "2.5 m", "2.501 m", {}),
    ("post_to_end_line", "-2 m", "-2.01 m", {}),
    ("post_to_end_line", "6 m", "6.01 m", {}),
    ("footing_diameter", "0.15 m", "0.149 m", {}),
    ("footing_depth", "5 m", "5.01 m", {}),
)


@pytest.mark.parametrize(("name", "inside", "outside", "others"), EDGES)
def test_the_range_is_inclusive(name: str, inside: Any, outside: Any, others: dict[str, Any]) -> None:
    assert not check(CLEAN | others | {name: inside}).queries
    assert [(q.code, q.name) for q in check(CLEAN | others | {name: outside}).queries] == [("IMPLAUSIBLE", name)]


def test_titles_blank_rows_and_rows_after_a_total_are_no_posts() -> None:
    width = len(HEADINGS)
    rows = [
        HEADINGS, ["North court"], VALUES, None, [" "] * width, ["Subtotal", None, None, None, None, 2],
        [*VALUES[:4], "P2", *VALUES[5:]], ["Total", None, None, None, None, 4], ["Measured by the caretaker"], None, ["x", "y"],
    ]  # fmt: skip
    got = check_book(book(sheet(rows)), "a.xlsx", POLICY)
    assert [(r.row, r.post_code) for r in got.rows] == [(3, "P1"), (7, "P2")]
    assert not got.queries
    assert sum("total" in n for n in got.notes) == 2


def test_a_post_after_a_total_is_not_read_but_asked_about() -> None:
    rows = [HEADINGS, VALUES, ["Total", None, None, None, None, Special("no_result")], [*VALUES[:4], "P2", *VALUES[5:]]]
    got = check_book(book(sheet(rows)), "a.xlsx", POLICY)
    assert [r.post_code for r in got.rows] == ["P1"]
    assert [(q.code, q.cell, q.holds_row) for q in got.queries] == [("CONFLICT", "E4", False)]


def test_a_row_in_doubt_is_a_post_that_is_held() -> None:
    code_only = [None] * 4 + ["P9"]
    got = check_book(book(sheet([HEADINGS, VALUES, code_only, ["S-01"], ["Total", "of all", "posts"]])), "a.xlsx", POLICY)
    assert [(r.row, r.held) for r in got.rows] == [(2, False), (3, True)]


def test_a_needed_column_that_is_not_there_holds_every_row_once() -> None:
    names = [n for n in SURVEY.names if n not in ("post_height", "post_size")]
    got = check(CLEAN, CLEAN | {"post_code": "P2"}, names=names)
    assert [(q.code, q.cell) for q in got.queries] == [("MISSING", "A2"), ("MISSING", "A3")]
    assert "Height above ground" in got.queries[0].message
    assert "Post size" in got.queries[0].message


def test_unknown_columns_are_carried_through() -> None:
    def column(n: int) -> str:
        return address(1, len(HEADINGS) + n)[:-1]

    got = check_book(book(sheet([[*HEADINGS, "Phone", None, "Phone"], [*VALUES, "555", 7, 1.5]])), "a.xlsx", POLICY)
    assert got.rows[0].extra == {"Phone": "555", f"column {column(2)}": "7", f"Phone ({column(3)})": "1.5"}


def test_csv_cells_are_text_and_give_the_same_row() -> None:
    texts = [str(v) for v in VALUES]
    (a,) = check_book(book(sheet([HEADINGS, VALUES])), "a", POLICY).rows
    (b,) = check_book(book(sheet([HEADINGS, texts])), "a", POLICY).rows
    assert (stated(a), a.typed, a.units) == (stated(b), b.typed, b.units)


def test_policy_ranges_are_the_catalogues() -> None:
    tall = dict(POLICY, post_height_most=7.0)
    assert not check_book(book(survey([CLEAN | {"post_height": "6.5 m"}])), "a", tall).queries


def test_a_file_that_cannot_be_read_is_one_query(tmp_path: Any) -> None:
    bad = tmp_path / "a.xlsx"
    bad.write_bytes(b"PK\x03\x04 torn")
    got = check_path(str(bad), "x/a.xlsx", POLICY)
    assert [(q.code, q.file, q.sheet, q.cell, q.holds_row) for q in got.queries] == [
        ("UNREADABLE_FILE", "x/a.xlsx", "", "", False)
    ]
    assert got.queries[0].suggestion


DATES_IN_TEXT = (
    ("post_height", "6-Aug", "8 ft 6 in"),
    ("post_size", "3/1/2002", "3 1/2 in"),
    ("post_size", "2002-03-01 00:00:00", "3 1/2 in"),
    ("post_height", "Aug-06", "8 ft 6 in"),
)


@pytest.mark.parametrize(("name", "text", "suggestion"), DATES_IN_TEXT)
def test_a_date_that_a_text_file_shows_is_a_date_too(name: str, text: str, suggestion: str) -> None:
    got = check(CLEAN | {name: text})
    assert [(q.code, q.suggestion) for q in got.queries] == [("DATE_CELL", suggestion)]


def test_codes_that_look_the_same_are_the_same() -> None:
    got = check(CLEAN | {"site_code": "S-01\u200b", "post_code": "\u202dP\u00a01\u202c"})
    assert (got.rows[0].site_code, got.rows[0].post_code) == ("S-01", "P 1")


@pytest.mark.parametrize("text", ["inside diameter", "not straight", "unsound", "ID"])
def test_the_opposite_of_a_word_is_no_suggestion_for_it(text: str) -> None:
    from pipeline.intake.survey.spellings import suggestions

    assert not any(suggestions(n, text) for n in ("size_basis", "post_line", "condition"))


def test_of_several_readings_the_plausible_one_is_suggested() -> None:
    got = check(CLEAN | {"wall": 3}, headings={"wall": "Wall thickness"})
    assert [(q.code, q.suggestion) for q in got.queries] == [("NO_UNIT", "3 mm")]


def test_a_row_that_names_no_site_is_held_and_asked_for_it() -> None:
    (query,) = check(CLEAN | {"site_code": None, "site_name": "   "}).queries
    assert (query.cell, query.code, query.holds_row) == ("A2", "MISSING", True)
