"""Marked copies that come back through the command: answered, corrected, in parts, twice, or used for something else."""

from __future__ import annotations

import io
import json
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any

import openpyxl
import pytest
from click.testing import CliRunner
from scenario.cells import Sheet
from scenario.others import ods, text, xls, xlsb
from scenario.workbooks import xlsm, xlsx

from pipeline.cli import main
from pipeline.intake.layout.list_words import HEADINGS, TITLE
from pipeline.intake.returned import first_round, identity_of, next_round

HEADS = ("Site code", "Site name", "Post", "Post shape", "Post size [in]", "Height above ground", "Old fittings")
FAULTY = [
    HEADS,
    ("A", "Elm", "1", "round", 3.5, "8 ft", "none"),
    ("A", "Elm", "2", "round", "about 3", "8 ft", "none"),
    ("A", "Elm", "3", "round", 3.5, "8", "none"),
    ("A", "Elm", "4", "octagonal-ish", 3.5, "8 ft", "a ladder"),
]
RIGHT = {"E3": "3 1/2", "F4": "8 ft 6 in", "D5": "round", "G5": "removable"}
"""What belongs in each cell in doubt; of post 4's fittings only a confirmation is asked."""

FORMATS: dict[str, Callable[[], bytes]] = {
    "xlsx": lambda: xlsx([Sheet("Posts", FAULTY)]),
    "xlsm": lambda: xlsm([Sheet("Posts", FAULTY)]),
    "ods": lambda: ods([Sheet("Posts", FAULTY)]),
    "xls": lambda: xls([Sheet("Posts", FAULTY)]),
    "xlsb": lambda: xlsb(Sheet("Posts", FAULTY)),
    "csv": lambda: text(FAULTY),
    "tsv": lambda: text(FAULTY, "\t"),
}


def check(folder: Path, out: Path) -> dict[str, Any]:
    """What `postquote check` says of a folder; marked copies in `out`."""
    done = CliRunner().invoke(main, ["check", str(folder), "--out", str(out), "--json", "--quiet"])
    assert done.exit_code in (0, 1), done.output
    result: dict[str, Any] = json.loads(done.stdout)
    return result


def counts(result: dict[str, Any]) -> dict[str, tuple[int, int, int]]:
    """Rows, rows held and rows replaced of each file."""
    return {f["file"]: (f["rows"], f["held"], f["replaced"]) for f in result["files"]}


def filled(copy: Path, cells: Mapping[str, Any] = {}, answers: Mapping[str, Any] = {}) -> bytes:
    """A marked copy with some cells corrected and some answered in the list."""
    wb = openpyxl.load_workbook(copy)
    for at, value in cells.items():
        wb.worksheets[1][at] = value
    todo, column = wb[TITLE], HEADINGS.index("Your answer")
    for row in todo.iter_rows():
        if row[2].value in answers:
            row[column].value = answers[row[2].value]
    out = io.BytesIO()
    wb.save(out)
    return out.getvalue()


@pytest.mark.parametrize("form", [pytest.param(f, marks=() if f in ("xlsx", "csv") else pytest.mark.slow) for f in FORMATS])
def test_half_corrected_and_half_answered_under_another_name_all_is_right(tmp_path: Path, form: str) -> None:
    surveys, out = tmp_path / "in", tmp_path / "out"
    (surveys / "north").mkdir(parents=True)
    (surveys / f"north/posts.{form}").write_bytes(FORMATS[form]())
    assert counts(check(surveys, out)) == {f"north/posts.{form}": (4, 3, 0)}
    copy = out / "returns/north/posts-marked.xlsx"
    half = {at: RIGHT[at] for at in ("E3", "D5")}
    (surveys / "back again.xlsx").write_bytes(filled(copy, half, {at: v for at, v in RIGHT.items() if at not in half}))
    result = check(surveys, tmp_path / "second")
    assert counts(result) == {f"north/posts.{form}": (4, 0, 4), "back again.xlsx": (4, 0, 0)}
    assert result["queries"] == []
    assert "Replaced by back again.xlsx" in str(result["files"])


def test_what_is_not_corrected_is_marked_again_under_the_first_name(tmp_path: Path) -> None:
    surveys, out = tmp_path / "in", tmp_path / "out"
    surveys.mkdir()
    (surveys / "posts.csv").write_bytes(FORMATS["csv"]())
    check(surveys, out)
    (surveys / "one.xlsx").write_bytes(filled(out / "returns/posts-marked.xlsx", {}, {"E3": "3 1/2"}))
    second = check(surveys, tmp_path / "second")
    assert counts(second) == {"posts.csv": (4, 0, 4), "one.xlsx": (4, 2, 0)}
    copies = [p.relative_to(tmp_path / "second").as_posix() for p in (tmp_path / "second").rglob("*.xlsx")]
    assert copies == ["returns/posts-marked.xlsx"]
    wb = openpyxl.load_workbook(tmp_path / "second/returns/posts-marked.xlsx")
    assert wb["Survey"]["E3"].value == "3 1/2"  # the answer stands in its cell now
    (surveys / "two.xlsx").write_bytes(filled(tmp_path / "second" / copies[0], RIGHT))
    third = check(surveys, tmp_path / "third")
    assert counts(third) == {"posts.csv": (4, 0, 4), "one.xlsx": (4, 0, 4), "two.xlsx": (4, 0, 0)}
    assert third["queries"] == []


def test_a_cell_and_its_answer_that_differ_contradict_each_other(tmp_path: Path) -> None:
    surveys, out = tmp_path / "in", tmp_path / "out"
    surveys.mkdir()
    (surveys / "posts.xlsx").write_bytes(FORMATS["xlsx"]())
    check(surveys, out)
    (surveys / "b.xlsx").write_bytes(filled(out / "returns/posts-marked.xlsx", RIGHT, {"E3": "4 in", "F4": "8 ft 6 in"}))
    result = check(surveys, tmp_path / "second")
    assert [(q["file"], q["cell"], q["code"], q["holds_row"]) for q in result["queries"]] == [("b.xlsx", "E3", "CONFLICT", True)]


def test_a_post_that_the_copy_lost_is_asked_about(tmp_path: Path) -> None:
    surveys, out = tmp_path / "in", tmp_path / "out"
    surveys.mkdir()
    (surveys / "posts.xlsx").write_bytes(FORMATS["xlsx"]())
    check(surveys, out)
    data = openpyxl.load_workbook(io.BytesIO(filled(out / "returns/posts-marked.xlsx", RIGHT)))
    data.worksheets[1].delete_rows(5)
    data.save(surveys / "b.xlsx")
    result = check(surveys, tmp_path / "second")
    assert counts(result) == {"posts.xlsx": (4, 1, 3), "b.xlsx": (3, 0, 0)}
    assert [(q["file"], q["cell"], q["code"], q["holds_row"]) for q in result["queries"]] == [
        ("posts.xlsx", "C5", "CONFLICT", True)
    ]


def test_a_copy_used_as_a_form_for_another_site_replaces_nothing_in_silence(tmp_path: Path) -> None:
    surveys, out = tmp_path / "in", tmp_path / "out"
    surveys.mkdir()
    (surveys / "posts.xlsx").write_bytes(FORMATS["xlsx"]())
    check(surveys, out)
    other = {f"A{n}": "B" for n in range(2, 6)} | {f"B{n}": "Fir" for n in range(2, 6)}
    (surveys / "b.xlsx").write_bytes(filled(out / "returns/posts-marked.xlsx", RIGHT | other))
    result = check(surveys, tmp_path / "second")
    assert counts(result)["posts.xlsx"] == (4, 4, 0)
    assert {(q["file"], q["code"]) for q in result["queries"]} == {("posts.xlsx", "CONFLICT")}


@pytest.mark.parametrize("form", ["xlsx", pytest.param("csv", marks=pytest.mark.slow)])
def test_two_copies_of_one_round_are_told_apart_row_by_row(tmp_path: Path, form: str) -> None:
    surveys, out = tmp_path / "in", tmp_path / "out"
    surveys.mkdir()
    (surveys / f"posts.{form}").write_bytes(FORMATS[form]())
    check(surveys, out)
    copy = out / "returns/posts-marked.xlsx"
    (surveys / "a.xlsx").write_bytes(filled(copy, {"E3": "3 1/2", "F4": "8 ft"}))
    (surveys / "b.xlsx").write_bytes(filled(copy, {}, {"F4": "9 ft", "D5": "round", "G5": "removable"}))
    result = check(surveys, tmp_path / "second")
    held = sorted((q["file"], q["cell"], q["code"]) for q in result["queries"] if q["holds_row"])
    assert held == [("a.xlsx", "C4", "CONFLICT"), ("b.xlsx", "C4", "CONFLICT")]
    assert sum(f["rows"] - f["held"] - f["replaced"] for f in result["files"]) == 3


def test_another_file_of_the_same_name_is_not_replaced(tmp_path: Path) -> None:
    surveys, out = tmp_path / "in", tmp_path / "out"
    surveys.mkdir()
    (surveys / "posts.csv").write_bytes(FORMATS["csv"]())
    check(surveys, out)
    (surveys / "posts.csv").write_bytes(text([HEADS, ("C", "Oak", "1", "round", 3.5, "8 ft", "none")]))
    (surveys / "b.xlsx").write_bytes(filled(out / "returns/posts-marked.xlsx", RIGHT))
    assert counts(check(surveys, tmp_path / "second")) == {"posts.csv": (1, 0, 0), "b.xlsx": (4, 0, 0)}


def test_an_answer_about_a_heading_counts_for_every_sheet(tmp_path: Path) -> None:
    surveys, out = tmp_path / "in", tmp_path / "out"
    surveys.mkdir()
    heads = (*HEADS[:6], "Form of the thing")
    rows = [heads, ("A", "Elm", "1", "round", 3.5, "8 ft", "tapered"), ("A", "Elm", "2", "round", 3.5, "8 ft", "straight")]
    more = [heads, ("B", "Fir", "1", "round", 3.5, "8 ft", "straight"), ("B", "Fir", "2", "round", 3.5, "8 ft", "tapered")]
    (surveys / "posts.xlsx").write_bytes(xlsx([Sheet("May", rows), Sheet("June", more)]))
    first = check(surveys, out)
    assert [(q["cell"], q["code"], q["name"]) for q in first["queries"]] == [("G1", "HEADING", "post_line")]
    for answer, code in (("Post line", ()), ("nothing", ())):
        (surveys / "b.xlsx").write_bytes(filled(out / "returns/posts-marked.xlsx", {}, {"G1": answer}))
        assert tuple(q["code"] for q in check(surveys, tmp_path / answer)["queries"]) == code


def test_an_identity_survives_its_own_text() -> None:
    first = first_round("a: b/ü “x”.xlsx", "ab" * 32)
    assert identity_of({"postquote-return": first.text}) == first
    second = next_round(first, "cd" * 32)
    assert (second.file, second.first, second.round) == (first.file, first.first, 2)
    assert identity_of({"postquote-return": second.text}) == second
    assert identity_of({"postquote-return": "nonsense"}) is None


def test_a_first_file_that_has_changed_since_is_replaced_and_stays_so(tmp_path: Path) -> None:
    """The ledger remembers of which contents copies have gone out. Source: design section 12, rule 1."""
    from nightly_made import Nights, site

    nights = Nights(tmp_path, sites={1: site(1, 2)})
    nights.sites[1][1]["post_height"] = "about 8 ft"
    nights.night(status=1)
    copy = openpyxl.load_workbook(nights.out / "returns" / "court-01-marked.xlsx")
    (cell,) = [c for row in copy.worksheets[1].iter_rows() for c in row if c.value == "about 8 ft"]
    cell.value = "8 ft 9 in"
    nights.sites[1][0]["condition"] = "surface rust"
    for _ in range(2):
        nights.write()
        copy.save(nights.home / "surveys" / "corrected.xlsx")
        done = CliRunner().invoke(main, nights.command()[1:])
        assert done.exit_code == 0, done.output
        assert {r["post_code"] for r in nights.table("posts")} == {"P1", "P2"}
        files = {f["file"]: (f["rows"], f["replaced"]) for f in json.loads((nights.out / "run.json").read_text())["surveys"]}
        assert files == {"corrected.xlsx": (2, 0), "court-01.csv": (2, 2)}
