"""Marked returns: the sender's own workbook, every doubt at its cell; corrected and sent back it is accepted."""

from __future__ import annotations

import io
import os
import subprocess
import sys
import zipfile
from pathlib import Path

import openpyxl
import pytest
from openpyxl.comments import Comment
from openpyxl.styles import Font, PatternFill
from survey_checked import check_path

from pipeline.intake.catalogue import documented_policy
from pipeline.intake.layout.list_words import TITLE
from pipeline.intake.query import Query
from pipeline.marking import marked_copy
from pipeline.marking.correction_list import HOLDS, TELLS
from pipeline.reading import read_book
from pipeline.reading.book import Book, Cell, Sheet

HEADS = [
    "Site code",
    "Site name",
    "Post",
    "Post shape",
    "Post size [in]",
    "Height above ground",
    "Post line",
    "Old fittings",
    "Wall [mm]",
]
GOOD = ["A", "Hollow Lane", "1", "round", 3.5, "8 ft 6 in", "straight", "none", None]
BAD = ["A", "Hollow Lane", "2", "round", "about 3", "=8*1", "strait and bent", "a ladder", None]


def _sender(path, suffix=".xlsx"):
    """A sender's own workbook, with things of theirs that must be kept."""
    wb = openpyxl.Workbook()
    ws = wb.active
    ws.title = "Coach's list"
    for row in (["Our posts"], HEADS, GOOD, BAD):
        ws.append(row)
    ws["A4"].font, ws["E3"].number_format = Font(italic=True, color="FFFFFF"), '0.0" in"'
    ws["E4"].comment = Comment("measured by torch light", "coach")
    ws.column_dimensions["B"].width = 33
    ws.row_dimensions[4].hidden = True
    ws["J3"] = "=E3*2"
    other = wb.create_sheet("Prices")
    other["A1"], other["A1"].fill = "=1+1", PatternFill("solid", fgColor="112233")
    wb.save(path / f"posts{suffix}")
    return str(path / f"posts{suffix}")


def _marked(path: str, file: str = "posts.xlsx"):
    result = check_path(path, file, documented_policy())
    return result, marked_copy(path, file, read_book(path), result.queries)


def _open(content: bytes, **how):
    return openpyxl.load_workbook(io.BytesIO(content), **how)


def test_each_cell_in_doubt_is_filled_and_commented_and_listed(tmp_path) -> None:
    result, content = _marked(_sender(tmp_path))
    wb = _open(content)
    assert wb.sheetnames == [TITLE, "Coach's list", "Prices"]
    assert wb.active.title == TITLE
    ws, todo = wb["Coach's list"], wb[TITLE]
    assert {q.cell for q in result.queries} == {"E4", "F4", "G4", "H4"}
    for q in result.queries:
        assert ws[q.cell].fill.fgColor.rgb.endswith(HOLDS if q.holds_row else TELLS)
        assert q.message in ws[q.cell].comment.text
        assert q.suggestion in ws[q.cell].comment.text
    assert ws["E4"].comment.text.startswith("measured by torch light")
    rows = [[c.value for c in r] for r in todo.iter_rows(min_row=7) if r[0].value]
    assert [r[2] for r in rows] == ["E4", "F4", "G4", "H4"]
    assert [r[3] for r in rows] == ["about 3", "(a formula without a result)", "strait and bent", "a ladder"]
    assert [todo.cell(7 + i, 3).hyperlink.location for i in range(2)] == ["'Coach''s list'!E4", "'Coach''s list'!F4"]


def test_the_senders_own_things_are_kept(tmp_path) -> None:
    _, content = _marked(_sender(tmp_path))
    wb = _open(content)
    ws = wb["Coach's list"]
    assert wb["Prices"]["A1"].value == "=1+1"
    assert wb["Prices"]["A1"].fill.fgColor.rgb.endswith("112233")
    assert ws["J3"].value == "=E3*2"
    assert ws.column_dimensions["B"].width == 33
    assert ws["E3"].number_format == '0.0" in"'
    assert ws["A4"].font.italic
    assert not ws.row_dimensions[4].hidden  # else its sender could not get at the cells
    assert sum(s.sheet_view.tabSelected for s in wb.worksheets) == 1  # two selected sheets are edited together


def test_a_stored_result_is_kept_with_its_formula(tmp_path) -> None:
    path = _sender(tmp_path)
    book = read_book(path)
    sheet = book.sheets[0]
    cells = [c for c in sheet.cells if c.address not in ("J3", "F4")]
    cells += [Cell(3, 10, "number", 7.25), Cell(4, 6, "text", "<8 ft & more>")]
    stored = Book(book.format, (Sheet(sheet.name, tuple(cells)), *book.sheets[1:]))
    ws = _open(marked_copy(path, "posts.xlsx", stored, ()), data_only=True)["Coach's list"]
    assert ws["J3"].value == 7.25
    assert ws["F4"].value == "<8 ft & more>"


CORRECT = {"E4": "3 1/2", "F4": "8 ft", "G4": "straight", "H4": "removable"}


@pytest.mark.parametrize("suffix", [".xlsx", ".csv", ".tsv", ".ods"])
def test_corrected_and_sent_back_it_is_accepted(tmp_path, suffix) -> None:
    path = _sender(tmp_path)
    if suffix == ".ods":
        path = _ods(tmp_path)
    elif suffix != ".xlsx":
        sign = "\t" if suffix == ".tsv" else ","
        rows = [["Our posts"], HEADS, GOOD, [*BAD[:5], "#N/A", *BAD[6:]]]
        path = str(tmp_path / f"posts{suffix}")
        with open(path, "w", encoding="utf-8") as f:
            f.writelines(sign.join("" if v is None else str(v) for v in r) + "\n" for r in rows)
    result, content = _marked(path, f"posts{suffix}")
    assert {q.cell for q in result.queries} == set(CORRECT)
    wb = _open(content)
    for cell, text in CORRECT.items():
        wb.worksheets[1][cell] = text
    wb.save(tmp_path / "back.xlsx")
    again = check_path(str(tmp_path / "back.xlsx"), "back.xlsx", documented_policy())
    assert again.queries == ()
    assert [r.post_code for r in again.rows] == ["1", "2"]
    # a second round takes the first one's marks out again
    wb = _open(marked_copy(str(tmp_path / "back.xlsx"), "back.xlsx", read_book(str(tmp_path / "back.xlsx")), ()))
    assert [s for s in wb.sheetnames if s.startswith(TITLE)] == [TITLE]
    assert not any(wb.worksheets[1][c].fill.fgColor.rgb.endswith((HOLDS, TELLS)) for c in CORRECT)
    assert [wb.worksheets[1][c].comment and wb.worksheets[1][c].comment.text for c in CORRECT][1:] == [None, None, None]


def _ods(tmp_path) -> str:
    """The same cells as an OpenDocument file, by odfpy."""
    from odf.opendocument import OpenDocumentSpreadsheet
    from odf.table import Table, TableCell, TableRow
    from odf.text import P

    doc = OpenDocumentSpreadsheet()
    table = Table(name="Coach's list")
    for row in (["Our posts"], HEADS, GOOD, [*BAD[:5], "high", *BAD[6:]]):
        line = TableRow()
        for value in row:
            if isinstance(value, float):
                cell = TableCell(valuetype="float", value=value)
            else:
                cell = TableCell(valuetype="string") if value else TableCell()
            if value is not None:
                cell.addElement(P(text=str(value)))
            line.addElement(cell)
        table.addElement(line)
    doc.spreadsheet.addElement(table)
    doc.save(str(tmp_path / "posts.ods"))
    return str(tmp_path / "posts.ods")


def test_text_from_outside_never_becomes_a_formula() -> None:
    hostile = [
        "=1+1",
        "+1",
        "-1",
        "@SUM(A1)",
        "#N/A",
        '=HYPERLINK("http://x")',
        "8-6",
        "3.5",
        "a\x00b\ud800c\x0b",
        "=" + "x" * 40000,
    ]
    book = Book("csv", (Sheet("", tuple(Cell(i, 1, "text", t) for i, t in enumerate(hostile, 1))),))
    queries = [Query("f.csv", "", f"A{i}", "UNREADABLE", t, t, True) for i, t in enumerate(hostile, 1)]
    content = marked_copy("", "=cmd.csv", book, queries)
    for ws in _open(content).worksheets:
        for row in ws.iter_rows():
            for cell in row:
                assert cell.data_type != "f", (ws.title, cell.coordinate, cell.value)
    copied = _open(content)["Survey"]
    assert [copied.cell(i, 1).value for i in range(1, 9)] == hostile[:8]
    assert copied["A7"].number_format == "@"  # an 8-6 typed there stays what it is


def test_dates_errors_units_and_odd_sheet_names_in_a_new_copy() -> None:
    cells = (Cell(2, 2, "date", "2026-08-06", "", "6-Aug"), Cell(3, 2, "error", "#DIV/0!"), Cell(4, 2, "number", 2590.0, "mm"),
             Cell(5, 2, "bool", True), Cell(6, 2, "no_result", None), Cell(7, 2, "number", 0.02, "100 %"))  # fmt: skip
    names = ("a/b:c", "A_B_C", "x" * 40, "To correct", "")
    book = Book("xls", tuple(Sheet(n, cells) for n in names))
    queries = [Query("f.xls", n, "B2", "DATE_CELL", "a date", "8 ft 6 in", True) for n in names]
    wb = _open(marked_copy("", "f.xls", book, queries))
    assert len({s.casefold() for s in wb.sheetnames}) == 6
    ws = wb.worksheets[1]
    assert (ws["B2"].is_date, ws["B3"].value, ws["B4"].value, ws["B5"].value) == (True, "#DIV/0!", 2590, True)
    assert ws["B6"].value == "#N/A"  # a blank could be taken for the default once it comes back
    assert "mm" in ws["B4"].number_format
    assert "apostrophe" in ws["B2"].comment.text


def test_where_nothing_can_be_marked_there_is_the_list() -> None:
    query = Query("x.xlsx", "", "", "UNREADABLE_FILE", "The file is cut short.", "Send it again.", False)
    wb = _open(marked_copy("/no/such/file", "x.xlsx", None, [query]))
    assert wb.sheetnames == [TITLE]
    texts = [c.value for r in wb.active.iter_rows() for c in r if c.value]
    assert "The file is cut short." in texts
    assert "Send it again." in texts


def test_a_sheet_of_the_senders_that_is_called_the_same_is_kept(tmp_path) -> None:
    path = _sender(tmp_path)
    wb = openpyxl.load_workbook(path)
    wb.create_sheet(TITLE)["A1"] = "milk"
    wb.save(path)
    _, content = _marked(path)
    assert _open(content).sheetnames == [f"{TITLE} (2)", "Coach's list", "Prices", TITLE]


def test_a_cell_within_merged_cells_is_marked_where_it_shows(tmp_path) -> None:
    path = _sender(tmp_path)
    wb = openpyxl.load_workbook(path)
    wb.active.merge_cells("H4:I4")
    wb.save(path)
    book = read_book(path)
    wb = _open(marked_copy(path, "p.xlsx", book, [Query("p", "Coach's list", "I4", "MISSING", "blank", "type it", True)]))
    assert wb["Coach's list"]["H4"].comment.text.startswith("blank")


def test_a_macro_workbook_comes_back_as_a_plain_one_and_says_so(tmp_path) -> None:
    path = _sender(tmp_path)
    book = read_book(path)
    content = marked_copy(path, "p.xlsm", Book("xlsm", book.sheets), ())
    assert "vbaProject" not in " ".join(zipfile.ZipFile(io.BytesIO(content)).namelist())
    assert any("macros" in str(c.value) for r in _open(content)[TITLE].iter_rows() for c in r)


def test_a_file_that_openpyxl_cannot_keep_is_copied_cell_by_cell(tmp_path) -> None:
    path = _sender(tmp_path)
    book = read_book(path)
    (tmp_path / "broken.xlsx").write_bytes(b"PK no workbook")
    wb = _open(marked_copy(str(tmp_path / "broken.xlsx"), "b.xlsx", book, ()))
    assert wb["Coach's list"]["B3"].value == "Hollow Lane"
    wb = _open(marked_copy(path, "b.xlsx", book, (), False))
    assert wb["Coach's list"]["B3"].value == "Hollow Lane"


def test_same_input_same_bytes(tmp_path) -> None:
    path = _sender(tmp_path)
    code = (
        f"import sys, hashlib\nsys.path.insert(0, {str(Path(__file__).parent)!r})\n"
        "from survey_checked import check_path\nfrom pipeline.intake.catalogue import documented_policy\n"
        "from pipeline.marking import marked_copy\n"
        "q = check_path(sys.argv[1], 'posts.xlsx', documented_policy()).queries\n"
        "print(hashlib.sha256(marked_copy(sys.argv[1], 'posts.xlsx', None, q[:: int(sys.argv[2])])).hexdigest())"
    )
    runs = {
        subprocess.run(
            [sys.executable, "-c", code, path, order],
            env={**os.environ, "PYTHONHASHSEED": seed},
            capture_output=True,
            text=True,
            check=True,
        ).stdout
        for seed, order in (("1", "1"), ("2", "-1"))
    }
    assert len(runs) == 1


def test_a_large_file_without_a_survey_comes_back_as_the_list_alone(tmp_path) -> None:
    path = tmp_path / "big.csv"
    path.write_text("a,b,c\n" * 7000)
    query = Query("big.csv", "", "A1", "NO_HEADINGS", "No row of headings was found.", "Type the headings.", False)
    wb = _open(marked_copy(str(path), "big.csv", None, [query]))
    assert wb.sheetnames == [TITLE]
    assert any("too many cells" in str(c.value) for r in wb.active.iter_rows() for c in r)


def test_a_blank_cell_with_a_link_stays_blank(tmp_path) -> None:
    path = _sender(tmp_path)
    wb = openpyxl.load_workbook(path)
    wb["Coach's list"]["Z9"].hyperlink = "https://example.org/"
    wb["Coach's list"]["Z9"].value = None
    wb.save(path)
    query = Query("p", "Coach's list", "I4", "MISSING", "blank", "type it", True)
    (tmp_path / "back.xlsx").write_bytes(marked_copy(path, "p.xlsx", read_book(path), [query]))
    assert not any(c.address == "Z9" for s in read_book(str(tmp_path / "back.xlsx")).sheets for c in s.cells)
