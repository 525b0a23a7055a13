"""Headings: which column each means, where the heading row stands, and what is no survey."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from survey_books import CLEAN, HEADINGS, book, sheet, survey
from survey_checked import check_book

from pipeline.intake.catalogue import documented_policy
from pipeline.intake.layout.beside import _WHICH as WHICH_POST
from pipeline.intake.layout.grid import upright
from pipeline.intake.layout.tables import Head, Table
from pipeline.intake.layout.tables import find_tables as tables_of
from pipeline.intake.survey.folding import fold, fold_word, stem
from pipeline.intake.survey.headings import OWN, SYNONYM, WEAK, claim
from pipeline.intake.survey.spellings import PASSED_OVER, PASSED_OVER_MEASURES, PASSED_OVER_WISHES, word_of
from pipeline.reading.book import Sheet, address
from schemas.catalogue import CATALOGUE
from schemas.heading_words import MADE_OF, NAMES, POST_WORDS, SAY_NOTHING
from schemas.languages import HEADINGS as SYNONYMS
from schemas.languages import SPELLINGS, WEAK_HEADINGS
from schemas.survey import SIZE_BASIS_OF_HEADING, SURVEY
from schemas.yes_no import YES_NO

POLICY = documented_policy()
VALUES = [CLEAN[c.name] for c in SURVEY.columns]


def test_no_heading_means_two_columns() -> None:
    seen: dict[str, str] = {}
    for c in SURVEY.columns:
        for word in {fold(w) for w in (c.heading, c.name, *SYNONYMS[c.name], *WEAK_HEADINGS.get(c.name, ()))}:
            assert word
            assert word not in seen, (word, c.name, seen.get(word))
            seen[word] = c.name
    assert all(seen[fold(h)] == "post_size" for h in SIZE_BASIS_OF_HEADING)
    for question in YES_NO:
        assert not {fold(h) for h in question.headings} & seen.keys(), question


def test_the_three_lists_of_spellings_are_disjoint() -> None:
    for name, words in SPELLINGS.items():
        column = SURVEY.column(name)
        assert set(words) <= set(column.values)
        good = [fold_word(w) for w in column.values]
        mended = [fold_word(s) for spellings in words.values() for s in spellings]
        nothing = {fold_word(w) for w in PASSED_OVER} - {""}
        by_word: dict[str, set[str]] = {}
        for word, spellings in words.items():
            for spelling in spellings:
                by_word.setdefault(fold_word(spelling), set()).add(word)
        assert {w: m for w, m in by_word.items() if len(m) > 1} == {}, name
        assert all(by_word.get(fold_word(w), {w}) == {w} for w in column.values), name
        assert not nothing & set(good + mended) - {"nil"}, name
        assert all(word_of(name, s) == w for w, spellings in words.items() for s in spellings)
    assert not set(PASSED_OVER) & {*PASSED_OVER_MEASURES, *PASSED_OVER_WISHES}


CLAIMED = (
    ("Site code", "site_code", "", OWN),
    ("SITE_CODE", "site_code", "", OWN),
    (" site  code: ", "site_code", "", OWN),
    ("Site #", "site_code", "", SYNONYM),
    ("Pole #", "post_code", "", SYNONYM),
    ("# of posts", "quantity", "", SYNONYM),
    ("Qty.", "quantity", "", SYNONYM),
    ("O.D. (in)", "post_size", "in", SYNONYM),
    ("OD [mm]", "post_size", "mm", SYNONYM),
    ("Dia, in", "post_size", "in", SYNONYM),
    ("Post size (in)", "post_size", "in", OWN),
    ("Height above ground [ft]", "post_height", "ft", OWN),
    ("Height above ground, ft", "post_height", "ft", OWN),
    ("Height", "post_height", "", SYNONYM),
    ("Rim height [ft]", "ring_heights", "ft", SYNONYM),
    ("Post shape (round/square/other)", "post_shape", "", OWN),
    ("Post line (needed)", "post_line", "", OWN),
    ("Old fittings?", "old_fittings", "", OWN),
    ("Post size (near the top) [in]", "post_size", "in", OWN),
    ("Lean [deg]", "lean", "deg", OWN),
    ("Size", "post_size", "", WEAK),
    ("Post size (OD, in)", "post_size", "in", SYNONYM),
    ("Post size [in] (OD)", "post_size", "in", SYNONYM),
    ("Height of pole above ground (ft)", "post_height", "ft", SYNONYM),
    ("Required ring height (ft)", "ring_heights", "ft", SYNONYM),
    ("Lean in/ft", "lean", "in/ft", OWN),
    ("Lean (in per ft)", "lean", "in/ft", OWN),
    ("Wind speed km/h", "wind_speed", "km/h", OWN),
)


@pytest.mark.parametrize(("text", "name", "unit", "strength"), CLAIMED)
def test_heading_is_known(text: str, name: str, unit: str, strength: int) -> None:
    found = claim(text)
    assert found is not None
    assert (found.name, found.unit, found.strength) == (name, unit, strength)


@pytest.mark.parametrize(
    "text", ["Number", "State", "Height (of board)", "Ring size", "Board height", "Phone", "", "Pipe size", "P1"]
)
def test_heading_is_not_known(text: str) -> None:
    assert claim(text) is None


LIKE_REAL = [line.split("\t") for line in (Path(__file__).parent / "data" / "headings.tsv").read_text("utf-8").splitlines()[1:]]
"""Headings of inventories of poles, posts, signs and trees, in six languages, with the column meant or `-`. Source: memory."""


def test_headings_like_real_ones_mean_the_right_column_or_none() -> None:
    assert len(LIKE_REAL) >= 400
    found = {text: (known.name if (known := claim(text)) else "-") for text, _ in LIKE_REAL}
    wrong = {text: found[text] for text, meant in LIKE_REAL if found[text] not in (meant, "-")}
    assert wrong == {}
    assert [text for text, meant in LIKE_REAL if found[text] != meant] == []


def find_tables(sheet: Sheet) -> list[Table]:
    return tables_of(upright(sheet))


def heads(found: Any) -> dict[str, tuple[str, str]]:
    return {n: (hs[0].address, hs[0].unit) for n, hs in found.heads.items()}


def test_heading_row_below_a_title_block_and_blank_columns() -> None:
    rows = [["Survey of posts"], None, ["Date", "May"], None, [None, None, *HEADINGS], None, [None, None, *VALUES]]
    got = check_book(book(sheet(rows)), "a.xlsx", POLICY)
    assert [(r.row, r.held, r.cells["site_code"]) for r in got.rows] == [(7, False, "C7")]


def test_heading_over_two_rows_and_under_groups() -> None:
    upper = ["Site", "Site", "Post", None, None, "Height", "Ring", "Straight", "Old"]
    lower = ["code", "name", "code", "shape", "size [in]", "above ground [ft]", "height [ft]", "clear length [in]", "fittings"]
    (table,) = find_tables(sheet([["Posts of spring"], upper, lower, ["S", "N", "P", "round", 3.5, 8.5, 10, 60, "none"]]))
    assert heads(table) == {
        "site_code": ("A2", ""), "site_name": ("B2", ""), "post_code": ("C2", ""), "post_shape": ("D3", ""),
        "post_size": ("E3", "in"), "post_height": ("F2", "ft"), "ring_heights": ("G2", "ft"),
        "clear_length": ("H2", "in"), "old_fittings": ("I2", ""),
    }  # fmt: skip
    assert [n for n, _ in table.rows] == [4]


def test_height_under_another_things_group_is_not_the_posts() -> None:
    upper = ["Post", None, None, None, "Board", None]
    lower = ["code", "shape", "size [in]", "height [ft]", "height [in]", "width [in]"]
    (table,) = find_tables(sheet([upper, lower, ["P", "round", 3.5, 8.5, 42, 54]]))
    assert heads(table)["post_height"] == ("D2", "ft")
    assert "post_size" in table.heads
    assert len(table.heads["post_size"]) == 1


def test_row_of_units_below_the_headings() -> None:
    names = ["Site code", "Post", "Post shape", "Post size", "Height above ground"]
    (table,) = find_tables(sheet([names, [None, None, "-", "in", "(ft)"], ["S", "P", "round", 3.5, 8.5]]))
    assert (heads(table)["post_size"], heads(table)["post_height"]) == (("D1", "in"), ("E1", "ft"))
    assert [n for n, _ in table.rows] == [3]


def test_units_that_clash_are_not_taken() -> None:
    names = ["Site code", "Post", "Post size [in]", "Height above ground [ft]"]
    (table,) = find_tables(sheet([names, [None, None, "mm", "ft"], ["S", "P", 89, 8.5]]))
    assert heads(table)["post_size"][1] == ""
    assert heads(table)["post_height"][1] == "ft"


def test_several_tables_in_a_sheet_and_several_sheets() -> None:
    short = list(HEADINGS)
    other = list(reversed(HEADINGS))
    rows = [short, VALUES, None, ["Second ground"], other, list(reversed(VALUES))]
    got = check_book(book(sheet(rows), sheet([["Notes"], ["Call first"]], "Notes"), survey([CLEAN])), "a.xlsx", POLICY)
    assert [(r.sheet, r.row, r.held) for r in got.rows] == [("Survey", 2, False), ("Survey", 6, False), ("Survey", 2, False)]
    assert got.rows[1].post_height == got.rows[0].post_height
    assert any("“Notes”" in n for n in got.notes)


def test_what_is_hidden_is_read_and_said() -> None:
    rows = [HEADINGS, VALUES]
    got = check_book(book(sheet(rows, "Old", hidden=True, hidden_rows=(2,))), "a.xlsx", POLICY)
    assert len(got.rows) == 1
    assert any("hidden; it was read" in n for n in got.notes)
    assert any("hidden rows were read: 2" in n for n in got.notes)


@pytest.mark.parametrize("table", CATALOGUE, ids=lambda t: t.name)
def test_a_catalogue_is_no_survey(table: Any) -> None:
    assert find_tables(sheet([[c.titled for c in table.columns], ["x"] * len(table.columns)])) == []


def test_sheets_that_explain_the_columns_are_no_survey() -> None:
    explained = sheet([["Heading", "Example", "Meaning"], *([c.titled, "x", c.help] for c in SURVEY.columns)])
    sites = sheet([["Site code", "Site name", "Customer", "Phone"], ["S", "N", "C", "1"]])
    assert find_tables(explained) == []
    assert find_tables(sites) == []


def test_no_headings_is_one_query_at_the_first_cell() -> None:
    got = check_book(book(sheet([None, [None, "Hello"]], "A"), sheet([["x"]], "B")), "a.xlsx", POLICY)
    assert [(q.code, q.sheet, q.cell, q.holds_row) for q in got.queries] == [("NO_HEADINGS", "A", "B2", False)]
    got = check_book(book(sheet([])), "a.xlsx", POLICY)
    assert [(q.code, q.sheet, q.cell) for q in got.queries] == [("NO_HEADINGS", "", "")]


def two_heights(second: Any, first: Any = 8.5) -> Any:
    return check_book(
        book(
            sheet(
                [
                    [*HEADINGS, "Pole height [in]"],
                    [*(first if c.name == "post_height" else CLEAN[c.name] for c in SURVEY.columns), second],
                ]
            )
        ),
        "a.xlsx",
        POLICY,
    )


def test_two_headings_that_claim_one_column() -> None:
    at = address(1, len(SURVEY.columns) + 1)
    same, blank, other, only = two_heights(102), two_heights(None), two_heights(96), two_heights(102, None)
    for got in (same, blank, only):
        assert [(q.code, q.cell, q.holds_row) for q in got.queries] == [("CONFLICT", at, False)]
        assert not got.rows[0].held
        assert got.rows[0].post_height == pytest.approx(2.5908, abs=1e-12)
    assert [(q.code, q.cell, q.holds_row) for q in other.queries] == [
        ("CONFLICT", at, False),
        ("CONFLICT", address(2, len(SURVEY.columns) + 1), True),
    ] or {(q.code, q.cell, q.holds_row) for q in other.queries} == {
        ("CONFLICT", at, False),
        ("CONFLICT", address(2, len(SURVEY.columns) + 1), True),
    }
    assert other.rows[0].held


def test_a_weak_heading_yields_to_a_sure_one_and_it_is_said() -> None:
    got = check_book(book(sheet([[*HEADINGS, "Width [in]", "Standard"], [*VALUES, 54, "yes"]])), "a.xlsx", POLICY)
    assert not got.queries
    assert got.rows[0].extra == {"Width [in]": "54", "Standard": "yes"}
    assert sum("carried through and not read" in n for n in got.notes) == 2


def test_a_heading_may_say_what_the_size_is() -> None:
    names = [n for n in SURVEY.names if n != "size_basis"]
    got = check_book(book(survey([CLEAN | {"post_size": 11}], names, {"post_size": "Circumference [in]"})), "a.xlsx", POLICY)
    assert got.rows[0].post_size == pytest.approx(11 * 0.0254 / 3.141592653589793, rel=1e-12)
    assert got.rows[0].size_basis == "circumference"
    both = check_book(book(survey([CLEAN | {"post_size": 11}], headings={"post_size": "Girth [in]"})), "a.xlsx", POLICY)
    assert [(q.code, q.name) for q in both.queries] == [("CONFLICT", "size_basis")]


@pytest.mark.parametrize("column", SURVEY.columns, ids=lambda c: c.name)
def test_every_heading_is_known_with_its_unit_in_each_way(column: Any) -> None:
    units = {
        "length": ("in", "mm", "m", "ft"),
        "pipe": ("in", "mm"),
        "lengths": ("ft", "m"),
        "angle": ("deg", "mm/m"),
        "speed": ("m/s",),
    }
    for words in (column.heading, column.heading.upper(), column.heading.replace("ost", "ole").replace("Ring", "Rim")):
        for unit in units.get(column.kind, ("",)):
            forms = (
                (f"{words} [{unit}]", f"{words} ({unit})", f"{words}, {unit}")[
                    : 2 if "/" in unit and column.kind == "angle" else 3
                ]
                if unit
                else (words, f" {words}: ")
            )
            for text in forms:
                found = claim(text)
                assert found is not None, text
                assert (found.name, found.unit) == (column.name, unit), text


def test_a_heading_with_a_remark_that_is_not_understood_is_asked_about() -> None:
    got = check_book(book(survey([CLEAN], headings={"lean": "Lean (1:n)"})), "a.xlsx", POLICY)
    assert [(q.code, q.cell, q.name, q.holds_row) for q in got.queries] == [("HEADING", "S1", "lean", False)]
    assert any("“Lean (1:n)”" in n for n in got.notes)


def test_no_word_that_tells_posts_apart_is_passed_over_in_headings() -> None:
    apart = {stem(fold(w)) for w in WHICH_POST} | {fold(w) for w in WHICH_POST}
    passed_over = {*SAY_NOTHING, *POST_WORDS, *NAMES, *(w for _, beside in MADE_OF.values() for w in beside)}
    assert {w for w in passed_over if {fold(w), stem(fold(w))} & apart} <= {"left"}  # `left` there is what is left


HELD = [
    ("Old board bolted or welded", True), ("How is the old board attached", True), ("Bolted / welded", True),
    ("Backboard bolted?", True), ("Panneau soudé ou boulonné", True), ("Alter Korb geschraubt oder geschweißt", True),
    ("Tablero viejo atornillado o soldado", True), ("Tabellone imbullonato o saldato", True),
    ("Bolted", False), ("Post bolted", False), ("Post bolted to base", False), ("Bolted or welded?", False),
]  # fmt: skip


@pytest.mark.parametrize(
    ("heading", "name"),
    [("# of goals", "quantity"), ("No. of hoops", "quantity"), ("How many baskets", "quantity"), ("Anzahl Körbe", "quantity"),
     ("Nb de paniers", "quantity"), ("Nº de canastas", "quantity"), ("Hoops", None), ("Number of backboards", None)],
)  # fmt: skip
def test_a_number_of_goals_is_one_of_posts(heading: str, name: str | None) -> None:
    found = claim(heading)
    assert (found.name if found else None) == name


@pytest.mark.parametrize(("heading", "is_old_fittings"), HELD)
def test_how_a_board_is_held_is_the_old_fittings_and_how_a_post_is_held_is_not(heading: str, is_old_fittings: bool) -> None:
    found = claim(heading)
    assert (found is not None and found.name == "old_fittings") == is_old_fittings


@pytest.mark.parametrize(
    ("heading", "basis"),
    [
        ("Around the pole", "circumference"), ("Tape measure around the post", "circumference"),
        ("Tour du poteau", "circumference"), ("Circumference of the pole at top", "circumference"),
        ("Round the corner", None), ("Size/shape", ""), ("Shape and size", ""), ("Diameter or side", ""),
    ],
)  # fmt: skip
def test_a_heading_over_the_size_says_what_the_size_is(heading: str, basis: str | None) -> None:
    found = claim(heading)
    assert (found is not None and found.name == "post_size") == (basis is not None)
    assert Head(1, 1, "A1", heading, "", "").basis == (basis or "")
