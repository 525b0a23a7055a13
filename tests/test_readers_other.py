"""Old and open formats, each against a reference library or crafted records; the folder walk."""

# ruff: noqa: E501 - crafted files, one cell or part a line
from __future__ import annotations

import datetime
import os
import struct
from pathlib import Path
from typing import Any

import pytest
from files_made import ods_parts, xlsb, xlsb_cell, zipped

from pipeline.reading import Found, NoSurveyError, find_surveys, read_book
from pipeline.reading.book import Book, UnreadableFileError


def read(tmp_path: Path, data: bytes, name: str = "survey") -> Book:
    path = tmp_path / name
    path.write_bytes(data)
    return read_book(str(path))


def plain(book: Book) -> dict[str, tuple[str, Any]]:
    return {c.address: (c.kind, c.value) for c in book.sheets[0].cells}


# OpenDocument

ODS_CELLS: list[tuple[str, tuple[Any, ...] | None]] = [
    ('office:value-type="float" office:value="88.9"><text:p>88.9 mm</text:p>', ("number", 88.9, "mm")),
    ('office:value-type="float" office:value="102"><text:p>102"</text:p>', ("number", 102, "in")),
    ('office:value-type="float" office:value="1234.5"><text:p>1.234,50</text:p>', ("number", 1234.5, "")),
    ('office:value-type="float" office:value="3.5"><text:p>3 1/2</text:p>', ("number", 3.5, "")),
    ('office:value-type="float" office:value="1"><text:p>TRUE</text:p>', ("bool", True, "")),
    ('office:value-type="percentage" office:value="0.02"><text:p>2%</text:p>', ("number", 0.02, "100 %")),
    ('office:value-type="float" office:value="0.02"><text:p>2 %</text:p>', ("number", 0.02, "100 %")),
    ('office:value-type="float" office:value="2"><text:p>2 %</text:p>', ("number", 2, "%")),
    ('office:value-type="boolean" office:boolean-value="true"><text:p>TRUE</text:p>', ("bool", True, "")),
    ('office:value-type="date" office:date-value="2026-08-06"><text:p>6-Aug</text:p>', ("date", "2026-08-06", "")),
    ('office:value-type="time" office:time-value="PT08H06M00S"><text:p>8:06</text:p>', ("date", "08:06:00", "")),
    ('office:value-type="string"><text:p>a<text:s text:c="2"/>b<text:line-break/>c</text:p><text:p>d</text:p>', ("text", "a  b\nc\nd", "")),
    ('office:value-type="string"><text:p>\n   a\n   b </text:p>', ("text", "a b", "")),
    ('office:value-type="string"><office:annotation><text:p>no</text:p></office:annotation><text:p>yes</text:p>', ("text", "yes", "")),
    ('table:formula="of:=1/0" office:value-type="string" office:string-value="" calcext:value-type="error"><text:p>#DIV/0!</text:p>', ("error", "#DIV/0!", "")),
    ('table:formula="of:=1/0" office:value-type="float" office:value="0"><text:p>Err:502</text:p>', ("error", "Err:502", "")),
    ('table:formula="of:=A1"><text:p/>', ("no_result", None, "")),
    ('table:formula="of:=A1" office:value-type="float">', ("no_result", None, "")),
    ('table:formula="of:=&quot;&quot;" office:value-type="string" office:string-value="">', None),
    ('table:style-name="x">', None),
]  # fmt: skip


@pytest.mark.parametrize(("xml", "want"), ODS_CELLS)
def test_one_open_document_cell(tmp_path: Path, xml: str, want: tuple[Any, ...] | None) -> None:
    table = (
        f'<table:table table:name="S"><table:table-row><table:table-cell {xml}</table:table-cell></table:table-row></table:table>'
    )
    cells = read(tmp_path, zipped(ods_parts(table))).sheets[0].cells
    assert [(c.kind, c.value, c.shown_unit) for c in cells] == ([want] if want else [])


def test_open_document_repeats_hidden_rows_and_sheets(tmp_path: Path) -> None:
    cell = '<table:table-cell office:value-type="string" table:number-columns-repeated="2"><text:p>x</text:p></table:table-cell>'
    table = (
        '<table:table table:name="H" table:style-name="ta2"><table:table-row table:number-rows-repeated="3"/>'
        '<table:table-row table:number-rows-repeated="2" table:visibility="collapse"><table:table-cell table:number-columns-repeated="2"/>'
        f'<table:covered-table-cell office:value-type="string"><text:p>no</text:p></table:covered-table-cell>{cell}</table:table-row>'
        '<table:table-row table:number-rows-repeated="1048571"><table:table-cell table:number-columns-repeated="16384"/></table:table-row></table:table>'
    )
    style = '<style:style style:name="ta2" style:family="table"><style:table-properties table:display="false"/></style:style>'
    (made,) = read(tmp_path, zipped(ods_parts(table, style))).sheets
    assert [c.address for c in made.cells] == ["D4", "E4", "D5", "E5"]
    assert (made.hidden, made.hidden_rows) == (True, (4, 5))


def test_open_document_as_its_reference_library_writes_it(tmp_path: Path) -> None:
    """Source: odfpy 1.4 as a reference library."""
    from odf.opendocument import OpenDocumentSpreadsheet
    from odf.table import Table, TableCell, TableRow
    from odf.text import P

    document = OpenDocumentSpreadsheet()
    made = Table(name="Posts")
    for r in range(3):
        row = TableRow()
        for value in (f"P{r}", r * 1.5):
            number = isinstance(value, float)
            cell = TableCell(valuetype="float", value=value) if number else TableCell(valuetype="string")
            cell.addElement(P(text=str(value)))
            row.addElement(cell)
        made.addElement(row)
    document.spreadsheet.addElement(made)
    document.save(str(tmp_path / "a.ods"))
    assert plain(read_book(str(tmp_path / "a.ods"))) == {
        "A1": ("text", "P0"), "B1": ("number", 0), "A2": ("text", "P1"), "B2": ("number", 1.5), "A3": ("text", "P2"), "B3": ("number", 3),
    }  # fmt: skip


# old binary workbooks


def test_old_binary_workbook(tmp_path: Path) -> None:
    """Source: xlwt 1.3 as a reference library."""
    import xlwt

    book = xlwt.Workbook()
    ws = book.add_sheet("Posts")
    ws.write(0, 1, "8'6\"")
    ws.write(1, 1, 88.9, xlwt.easyxf(num_format_str='0.0" mm"'))
    ws.write(2, 1, datetime.date(2026, 8, 6), xlwt.easyxf(num_format_str="d-mmm"))
    ws.write(3, 1, True)
    ws.row(4).set_cell_error(1, 0x2A)
    ws.write(5, 1, xlwt.Formula("1+1"))
    ws.row(5).hidden = True
    ws.write_merge(6, 7, 1, 2, "merged")
    ws.write(8, 1, 12)
    ws.row(9).insert_cell(1, xlwt.Cell.StrCell(9, 1, 17, book.add_str("")))
    hidden = book.add_sheet("Not shown")
    hidden.write(0, 0, "x")
    hidden.visibility = 1
    book.save(str(tmp_path / "a.xls"))
    got = read_book(str(tmp_path / "a.xls"))
    assert plain(got) == {
        "B1": ("text", "8'6\""), "B2": ("number", 88.9), "B3": ("date", "2026-08-06"), "B4": ("bool", True), "B5": ("error", "#N/A"),
        "B6": ("no_result", None), "B7": ("text", "merged"), "B9": ("number", 12),
    }  # fmt: skip
    assert got.sheets[0].cells[1].shown_unit == "mm"
    assert got.sheets[0].hidden_rows == (6,)
    assert [s.hidden for s in got.sheets] == [False, True]


# binary Office Open XML


def test_binary_workbook(tmp_path: Path) -> None:
    text, number = struct.pack("<I", 3) + "abc".encode("utf-16-le"), struct.pack("<d", 46240.0)
    cells = (
        xlsb_cell(7, 0, struct.pack("<I", 1))
        + xlsb_cell(5, 1, struct.pack("<d", 88.9), style=1)
        + xlsb_cell(5, 2, number, style=2)
        + xlsb_cell(3, 3, bytes([42]))
        + xlsb_cell(11, 4, bytes([7]) + b"\0" * 6)
        + xlsb_cell(9, 5, struct.pack("<d", 2.5) + b"\0" * 6)
        + xlsb_cell(8, 6, text + b"\0" * 6)
        + xlsb_cell(4, 7, b"\1")
        + xlsb_cell(2, 8, struct.pack("<I", (1250 << 2) | 3))
        + xlsb_cell(1, 9)
        + xlsb_cell(6, 10, text)
    )
    data = xlsb(
        [(0, False, cells), (3, True, xlsb_cell(2, 0, struct.pack("<i", (-7 << 2) | 2)))],
        ["no", "8'6\""],
        ['0.0" mm"', "d-mmm"],
        hidden=True,
    )
    book = read(tmp_path, data)
    assert plain(book) == {
        "A1": ("text", "8'6\""), "B1": ("number", 88.9), "C1": ("date", "2026-08-06"), "D1": ("error", "#N/A"), "E1": ("error", "#DIV/0!"),
        "F1": ("number", 2.5), "G1": ("text", "abc"), "H1": ("bool", True), "I1": ("number", 12.5), "K1": ("text", "abc"), "A4": ("number", -7),
    }  # fmt: skip
    assert (book.format, book.sheets[0].hidden, book.sheets[0].hidden_rows) == ("xlsb", True, (4,))
    assert book.sheets[0].cells[1].shown_unit == "mm"
    _is_what_the_reference_reads(tmp_path / "survey", book)


def _is_what_the_reference_reads(path: Path, book: Book) -> None:
    """Source: pyxlsb 1.0.10 as a reference library; it shows errors as codes and dates as numbers."""
    from pyxlsb import open_workbook

    path.rename(path.with_suffix(".xlsb"))
    with open_workbook(str(path.with_suffix(".xlsb"))) as reference, reference.get_sheet(1) as sheet:
        want = {(c.r + 1, c.c + 1): c.v for row in sheet.rows() for c in row if c.v is not None}
    got = {(c.row, c.column): c for c in book.sheets[0].cells}
    assert set(got) <= set(want) | {(1, 11)}  # it has no record for text in a cell
    for place, cell in got.items():
        if cell.kind in ("number", "bool"):
            assert want[place] == pytest.approx(cell.value), place


# the folder


def names(found: list[Found]) -> list[str]:
    return [f.name for f in found]


def test_a_folder_is_read_through_in_order(tmp_path: Path) -> None:
    folder = tmp_path / "in"
    for name in (
        "b.csv",
        "a.xlsx",
        "sub/c.csv",
        ".hidden.csv",
        ".git/x.csv",
        "~$a.xlsx",
        ".~lock.a.xlsx#",
        "notes.pdf",
        "Thumbs.db",
        "out/o.csv",
    ):
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_text("x")
    found = find_surveys([str(folder)], without=[str(folder / "out")])
    assert names(found) == ["a.xlsx", "b.csv", "notes.pdf", "sub/c.csv"]
    assert names(find_surveys([str(folder / "b.csv"), str(folder / "b.csv"), str(folder / ".hidden.csv")])) == [
        "b.csv",
        ".hidden.csv",
    ]


def test_names_that_two_arguments_share_stay_apart(tmp_path: Path) -> None:
    for name in ("north/a.csv", "north/b.csv", "south/a.csv", "x/south/a.csv"):
        (tmp_path / name).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / name).write_text("x")
    assert names(find_surveys([str(tmp_path / "north"), str(tmp_path / "south")])) == ["north/a.csv", "b.csv", "south/a.csv"]
    three = names(find_surveys([str(tmp_path / n) for n in ("north", "south", "x/south")]))
    assert len({n.casefold() for n in three}) == 4


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="a system without named pipes")
def test_links_and_devices_are_answered_and_never_opened(tmp_path: Path) -> None:
    folder = tmp_path / "in"
    folder.mkdir()
    (tmp_path / "secret.csv").write_text("x")
    (folder / "good.csv").write_text("x")
    (folder / "out.csv").symlink_to(tmp_path / "secret.csv")
    (folder / "zero.csv").symlink_to("/dev/zero")
    (folder / "gone.csv").symlink_to(tmp_path / "gone")
    (folder / "up").symlink_to(tmp_path)
    (folder / "loop").symlink_to(folder)
    (folder / "again.csv").symlink_to(folder / "good.csv")
    os.mkfifo(folder / "pipe.csv")
    found = {f.name: f for f in find_surveys([str(folder)])}
    assert sorted(found) == ["gone.csv", "good.csv", "out.csv", "pipe.csv", "up", "zero.csv"]
    assert [n for n, f in found.items() if not f.reason] == ["good.csv"]
    assert "leads nowhere" in found["gone.csv"].reason
    assert "leads out of the folder" in found["out.csv"].reason
    with pytest.raises(UnreadableFileError, match="not a file"):
        read_book(str(folder / "pipe.csv"))


def test_an_argument_that_is_not_there(tmp_path: Path) -> None:
    with pytest.raises(NoSurveyError, match=r"no file or folder “.*nothing"):
        find_surveys([str(tmp_path / "nothing")])


def test_names_that_no_screen_can_show(tmp_path: Path) -> None:
    try:
        (tmp_path / os.fsdecode(b"bad\xff\n.csv")).write_text("Site code,Post\nS,P\n")
    except OSError:
        pytest.skip("a system that takes no such names")
    (found,) = find_surveys([str(tmp_path)])
    found.name.encode()
    assert "\n" not in found.name
    assert read_book(found.path).sheets[0].cells


def test_an_old_workbook_whose_stream_is_called_in_capitals(tmp_path: Path) -> None:
    """Source: MS-CFB 2.6.4, names of streams are compared without case."""
    import io

    import xlwt

    made = xlwt.Workbook()
    made.add_sheet("S").write(0, 0, 7)
    out = io.BytesIO()
    made.save(out)
    data = out.getvalue().replace("Workbook".encode("utf-16-le"), "WORKBOOK".encode("utf-16-le"))
    assert plain(read(tmp_path, data)) == {"A1": ("number", 7)}


@pytest.mark.parametrize(
    ("result", "seen"), [(b"\x03\0\0\0\0\0\xff\xff", "no_result"), (b"\0" * 8, "no_result"), (struct.pack("<d", 2.0), "")]
)
def test_an_empty_result_counts_where_the_workbook_was_calculated(tmp_path: Path, result: bytes, seen: str) -> None:
    """Source: MS-XLS 2.5.133, FormulaValue; a nought may be what a program stores that calculates nothing (common practice)."""
    import io

    import xlwt

    made = xlwt.Workbook()
    ws = made.add_sheet("S")
    ws.write(0, 0, xlwt.Formula('""'))
    made.add_sheet("T").write(0, 0, xlwt.Formula("1+1"))
    out = io.BytesIO()
    made.save(out)
    head, _, tail = out.getvalue().rpartition(b"\x03\0\0\0\0\0\xff\xff")
    cells = read(tmp_path, head + result + tail).sheets[0].cells
    assert [c.kind for c in cells] == ([seen] if seen else [])
