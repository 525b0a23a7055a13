"""Office Open XML: what a person sees in a cell is what is read from it."""

# ruff: noqa: E501 - crafted files, one cell or part a line
from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from files_made import MAIN, sheet, styles, xlsx, xlsx_parts, zipped

from pipeline.reading import read_book
from pipeline.reading.book import Book, Cell, UnreadableFileError


def read(tmp_path: Path, data: bytes, name: str = "survey.xlsx") -> Book:
    path = tmp_path / name
    path.write_bytes(data)
    return read_book(str(path))


def only(tmp_path: Path, data: bytes) -> Cell:
    (cell,) = read(tmp_path, data).sheets[0].cells
    return cell


CELLS: list[tuple[str, str, Any]] = [
    ('<c r="A1"><v>8.5</v></c>', "number", 8.5),
    ('<c r="A1"><v>12</v></c>', "number", 12),
    ('<c r="A1"><v> 1.2e3 </v></c>', "number", 1200.0),
    ('<c r="A1" t="str"><f>B1</f><v>8\'6"</v></c>', "text", "8'6\""),
    ('<c r="A1" t="inlineStr"><is><t>three</t></is></c>', "text", "three"),
    ('<c r="A1" t="inlineStr"><is><r><t>a</t></r><r><t xml:space="preserve"> b</t></r><rPh sb="0" eb="1"><t>x</t></rPh></is></c>', "text", "a b"),
    ('<c r="A1" t="b"><v>1</v></c>', "bool", True),
    ('<c r="A1" t="b"><v>0</v></c>', "bool", False),
    ('<c r="A1" t="e"><v>#N/A</v></c>', "error", "#N/A"),
    ('<c r="A1" t="e"><f>1/0</f><v>#DIV/0!</v></c>', "error", "#DIV/0!"),
    ('<c r="A1" t="inlineStr"><is><t>#REF!</t></is></c>', "error", "#REF!"),
    ('<c r="A1" t="d"><v>2026-08-06T00:00:00</v></c>', "date", "2026-08-06"),
    ('<c r="A1"><f>1+1</f></c>', "no_result", None),
    ('<c r="A1"><f>1+1</f><v></v></c>', "no_result", None),
    ('<c r="A1"><f>1+1</f><v/></c>', "no_result", None),
    ('<c r="A1"><f t="shared" si="0"/><v>3</v></c>', "number", 3),
    ('<c r="A1"><v>1,5</v></c>', "text", "1,5"),
    ('<c r="A1"><v>1_000</v></c>', "text", "1_000"),
    ('<c r="A1" t="inlineStr"><is><t>two_x000D__x000A_lines</t></is></c>', "text", "two\nlines"),
    ('<c r="A1" t="inlineStr"><is><t>_x005F_x000D_</t></is></c>', "text", "_x000D_"),
    ('<c r="A1" t="inlineStr"><is><t>bell_x0007_</t></is></c>', "text", "bell\ufffd"),
    ('<c r="A1" t="inlineStr"><is><t>_xD83C__xDFC0__xD800_</t></is></c>', "text", "\U0001f3c0\ufffd"),
]  # fmt: skip


@pytest.mark.parametrize(("xml", "kind", "value"), CELLS)
def test_one_cell(tmp_path: Path, xml: str, kind: str, value: Any) -> None:
    cell = only(tmp_path, xlsx(f'<row r="1">{xml}</row>'))
    assert (cell.kind, cell.value, type(cell.value)) == (kind, value, type(value))


@pytest.mark.parametrize(
    "xml",
    [
        '<c r="A1"/>',
        '<c r="A1" s="0"/>',
        '<c r="A1"><v></v></c>',
        '<c r="A1" t="str"><f>""</f><v></v></c>',
        '<c r="A1" t="inlineStr"><is><t xml:space="preserve">  \n </t></is></c>',
        '<c r="A1" t="inlineStr"><is><t>\u00a0\u200b</t></is></c>',
    ],
)
def test_blank_cells_are_left_out(tmp_path: Path, xml: str) -> None:
    book = read(tmp_path, xlsx(f'<row r="1">{xml}</row>'))
    assert book.sheets[0].cells == ()


FORMATS: list[tuple[str, str, str, Any, str, str]] = [
    ('0.0" mm"', "88.9", "number", 88.9, "mm", "88.9 mm"),
    (r"0\ \m\m", "89", "number", 89, "mm", "89 mm"),
    ('General" mm"', "88.9", "number", 88.9, "mm", "88.9 mm"),
    ('0.00," m"', "2590", "number", 2.59, "m", "2.59 m"),
    ('0" mm";-0" mm"', "-5", "number", -5, "mm", "-5 mm"),
    ('[>=1000]0.00," m";0" mm"', "900", "number", 900, "mm", "900 mm"),
    (r"0\"", "102", "number", 102, "in", '102"'),
    ("0.0%", "0.025", "number", 0.025, "100 %", "2.5%"),
    ('0.0" %"', "2.5", "number", 2.5, "%", "2.5 %"),
    (r"0\%", "2", "number", 2, "%", "2%"),
    ("000", "7", "number", 7, "", "007"),
    ('"S-"000', "7", "number", 7, "", "S-007"),
    (r"#\ ?/8", "3.5", "number", 3.5, "", ""),
    (r"#\ ??/16\"", "3.5", "number", 3.5, "in", '3.5"'),
    (r"#\-?/?", "3.5", "number", 3.5, "", ""),
    (r"#\ ##0", "2590", "number", 2590, "", ""),
    (r'#\ ##0.0" mm"', "2590.5", "number", 2590.5, "mm", "2590.5 mm"),
    (r"0\'\ 00.0\"", "806.5", "text", "8' 06.5\"", "", "8' 06.5\""),
    ('0.0,,"M"', "1021021", "number", 1021021, "", "1.0M"),
    ("000-00", "1234", "text", "012-34", "", "012-34"),
    ("#,##0.00", "1234.5", "number", 1234.5, "", ""),
    ('_-* #,##0.00\\ "€"_-', "3", "number", 3, "", ""),
    ("d-mmm", "46240", "date", "2026-08-06", "", "6-Aug"),
    ("[$-409]d\\-mmm\\-yy;@", "46240", "date", "2026-08-06", "", "6-Aug-26"),
    ("m/d/yyyy h:mm", "46240.5", "date", "2026-08-06T12:00:00", "", "8/6/2026 12:00"),
    ("h:mm", "0.3375", "date", "08:06:00", "", "8:06"),
    ("yyyy-mm-dd", "1", "date", "1900-01-01", "", "1900-01-01"),
    ("yyyy-mm-dd", "61", "date", "1900-03-01", "", "1900-03-01"),
    ("yyyy-mm-dd", "-3", "error", "#####", "", ""),
]


@pytest.mark.parametrize(("code", "value", "kind", "read_as", "unit", "shown"), FORMATS)
def test_number_formats(tmp_path: Path, code: str, value: str, kind: str, read_as: Any, unit: str, shown: str) -> None:
    cell = only(tmp_path, xlsx(f'<row r="1"><c r="A1" s="1"><v>{value}</v></c></row>', styles=styles(code)))
    assert (cell.kind, cell.value, cell.shown_unit, cell.shown) == (kind, read_as, unit, shown)


def test_serial_dates_are_those_of_the_standard() -> None:
    """Source: ISO/IEC 29500-1 18.17.4.1, through openpyxl.utils.datetime as a reference library."""
    from openpyxl.utils.datetime import MAC_EPOCH, from_excel

    from pipeline.reading.numberformats import number_format
    from pipeline.reading.shown import date_value

    form = number_format("yyyy-mm-dd hh:mm:ss")
    assert form is not None
    for serial in (1, 59, 61, 367, 40000.25, 46240, 60000.999):
        for from_1904 in (False, True):
            want = from_excel(serial, MAC_EPOCH) if from_1904 else from_excel(serial)
            got = date_value(serial, form.sections[0], from_1904)
            assert got is not None
            assert got[:10] == want.isoformat()[:10], (serial, from_1904)


def test_date_system_of_1904_and_built_in_formats(tmp_path: Path) -> None:
    data = zipped(
        xlsx_parts(
            {"S": sheet('<row r="1"><c r="A1" s="1"><v>44778</v></c></row>')},
            styles='<cellXfs><xf numFmtId="0"/><xf numFmtId="16"/></cellXfs>',
            properties='<workbookPr date1904="1"/><x15:workbookPr chartTrackingRefBase="1"/>',
        )
    )
    cell = only(tmp_path, data)
    assert (cell.kind, cell.value, cell.shown) == ("date", "2026-08-06", "6-Aug")


def test_shared_strings_with_rich_text_and_phonetic_runs(tmp_path: Path) -> None:
    strings = "<si><t>plain</t></si><si><r><t>rich </t></r><r><t>text</t></r><rPh sb='0' eb='1'><t>no</t></rPh></si>"
    rows = '<row r="1"><c r="A1" t="s"><v>1</v></c><c r="B1" t="s"><v>0</v></c></row>'
    cells = read(tmp_path, xlsx(rows, strings=strings)).sheets[0].cells
    assert [c.value for c in cells] == ["rich text", "plain"]


def test_addresses_missing_wrong_or_out_of_order(tmp_path: Path) -> None:
    rows = "<row><c><v>1</v></c><c><v>2</v></c></row><row r='5'><c r='D5'><v>4</v></c><c r='B5'><v>3</v></c></row><row><c><v>5</v></c></row><row r='3'><c r='C3'><v>9</v></c></row>"
    data = zipped(xlsx_parts({"S": sheet(rows, before='<dimension ref="A1:A1"/>')}))
    assert [(c.address, c.value) for c in read(tmp_path, data).sheets[0].cells] == [
        ("A1", 1), ("B1", 2), ("C3", 9), ("B5", 3), ("D5", 4), ("A6", 5),
    ]  # fmt: skip


def test_hidden_rows_sheets_columns_and_merges(tmp_path: Path) -> None:
    rows = '<row r="1"><c r="A1"><v>1</v></c><c r="B1"><v>2</v></c></row><row r="2" hidden="1"><c r="A2"><v>3</v></c></row><row r="3" hidden="1"/>'
    merged = '<mergeCells><mergeCell ref="A1:XFD1"/></mergeCells>'
    parts = xlsx_parts(
        {"Seen": sheet(rows, after=merged, before='<cols><col min="1" max="1" hidden="1"/></cols>'), "Not": sheet(rows)},
        states={"Not": "veryHidden"},
    )
    book = read(tmp_path, zipped(parts))
    seen, hidden = book.sheets
    assert [c.address for c in seen.cells] == ["A1", "A2"]
    assert (seen.hidden, seen.hidden_rows, hidden.hidden, hidden.name) == (False, (2,), True, "Not")
    assert any("column(s) A are hidden" in n for n in book.notes)
    assert any("under merged cells" in n for n in book.notes)


def test_strict_namespace_prefixes_and_utf16(tmp_path: Path) -> None:
    strict = xlsx_parts(
        {"S": sheet('<row r="1"><c r="A1"><v>7</v></c></row>', namespace="http://purl.oclc.org/ooxml/spreadsheetml/main")},
        strict=True,
    )
    prefixed = f'<x:worksheet xmlns:x="{MAIN}"><x:sheetData><x:row r="1"><x:c r="A1"><x:v>7</x:v></x:c></x:row></x:sheetData></x:worksheet>'
    wide = (
        sheet('<row r="1"><c r="A1"><v>7</v></c></row>')
        .replace('version="1.0"', 'version="1.0" encoding="UTF-16"')
        .encode("utf-16")
    )
    for parts in (strict, xlsx_parts({"S": prefixed}), xlsx_parts({"S": wide})):
        assert only(tmp_path, zipped(parts)).value == 7


def test_targets_absolute_with_backslashes_and_other_case(tmp_path: Path) -> None:
    parts = xlsx_parts({"S": sheet('<row r="1"><c r="A1"><v>7</v></c></row>')})
    related = str(parts["xl/_rels/workbook.xml.rels"])
    for target in (
        "/xl/worksheets/sheet1.xml",
        "worksheets\\sheet1.xml",
        "../xl/worksheets/SHEET1.XML",
        "./worksheets/sheet1.xml",
    ):
        changed = {**parts, "xl/_rels/workbook.xml.rels": related.replace("worksheets/sheet1.xml", target)}
        assert only(tmp_path, zipped(changed)).value == 7


def test_chart_sheets_are_passed_over_and_a_missing_sheet_is_not(tmp_path: Path) -> None:
    parts = xlsx_parts({"S": sheet('<row r="1"><c r="A1"><v>7</v></c></row>'), "Chart": "<chartsheet/>"})
    related = str(parts["xl/_rels/workbook.xml.rels"])
    parts["xl/_rels/workbook.xml.rels"] = related.replace(
        'worksheet" Target="worksheets/sheet2', 'chartsheet" Target="worksheets/sheet2'
    )
    assert [s.name for s in read(tmp_path, zipped(parts)).sheets] == ["S"]
    del parts["xl/worksheets/sheet1.xml"]
    with pytest.raises(UnreadableFileError, match="sheet “S” is missing"):
        read(tmp_path, zipped(parts))


def test_one_address_twice(tmp_path: Path) -> None:
    alike = '<row r="1"><c r="A1"><v>7</v></c><c r="A1"><v>7</v></c></row>'
    assert only(tmp_path, xlsx(alike)).value == 7
    with pytest.raises(UnreadableFileError, match="A1 of sheet “Survey” stands there twice"):
        read(tmp_path, xlsx(alike.replace("7", "8", 1)))


def test_an_empty_workbook_is_read_as_empty(tmp_path: Path) -> None:
    book = read(tmp_path, xlsx(""))
    assert (book.format, book.sheets[0].cells) == ("xlsx", ())


def test_an_ordinary_workbook_as_the_reference_library_reads_it(tmp_path: Path) -> None:
    """Source: openpyxl 3.1 as a reference library, its values and its formulas."""
    import datetime

    import openpyxl
    import xlsxwriter

    path = str(tmp_path / "a.xlsx")
    made = xlsxwriter.Workbook(path)
    ws = made.add_worksheet("Posts")
    ws.write_row("B2", ["Site code", "Post", "Höhe ⅝", "8'6\"", 3.5, 12, -0.25, 1e-7, 123456789012345678])
    ws.write_datetime("B3", datetime.datetime(2026, 8, 6), made.add_format({"num_format": "d-mmm"}))
    ws.write_formula("C3", "=1/0", None, "#DIV/0!")
    ws.write_formula("D3", "=1+1", None, 2)
    ws.write_formula("E3", '="a"&"b"', None, "ab")
    ws.write_boolean("F3", False)
    ws.write("G3", "two\nlines")
    ws.write_rich_string("H3", "a ", made.add_format({"bold": True}), "b", " c")
    ws.merge_range("B5:D6", "merged")
    ws.write_blank("E5", None, made.add_format({"bold": True}))
    made.close()
    (sheet_read,) = read_book(path).sheets
    reference = openpyxl.load_workbook(path, data_only=True)["Posts"]
    want = {c.coordinate: c for row in reference.iter_rows() for c in row if c.value is not None}
    got = {c.address: c for c in sheet_read.cells}
    assert list(got) == list(want)
    for place, cell in got.items():
        value = want[place].value
        assert cell.value == (value.date().isoformat() if isinstance(value, datetime.datetime) else value), place
        assert (cell.kind == "error") == (want[place].data_type == "e")


def test_a_survey_takes_milliseconds(tmp_path: Path) -> None:
    """Six rows of 27 columns; the bound is loose for a busy machine, the aim is 3 ms."""
    import time

    import openpyxl

    book = openpyxl.Workbook()
    for r in range(1, 8):
        for c in range(1, 28):
            book.active.cell(r, c, f"text {r} {c}" if c % 3 else r * c * 1.5)
    path = str(tmp_path / "a.xlsx")
    book.save(path)
    times = []
    for _ in range(20):
        started = time.perf_counter()
        read_book(path)
        times.append(time.perf_counter() - started)
    assert min(times) < 0.010


def test_a_module_listed_among_the_sheets_is_passed_over_and_said(tmp_path: Path) -> None:
    parts = xlsx_parts({"S": sheet('<row r="1"><c r="A1"><v>7</v></c></row>')})
    parts["xl/workbook.xml"] = str(parts["xl/workbook.xml"]).replace(
        "</sheets>", '<sheet name="Module" sheetId="2" r:id=""/></sheets>'
    )
    book = read(tmp_path, zipped(parts))
    assert [s.name for s in book.sheets] == ["S"]
    assert "“Module”" in book.notes[0]
