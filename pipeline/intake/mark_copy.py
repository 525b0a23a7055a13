"""Two ways to a marked workbook: the sender's own, opened and marked; or a new one with the same cells."""

from __future__ import annotations

import copy
import datetime
import io
import re
import warnings
import zipfile
from collections.abc import Iterable, Mapping, Sequence
from typing import Any

import openpyxl
from openpyxl.cell.cell import ERROR_CODES, MergedCell
from openpyxl.comments import Comment
from openpyxl.reader.excel import ExcelReader
from openpyxl.styles import PatternFill
from openpyxl.utils import get_column_letter

from pipeline.intake.mark_drawings import Drawings, collect, graft
from pipeline.intake.mark_list import DARK, HOLDS, SIGN, TELLS, TITLE, Mark, as_shown, clean, marks, put, write_list
from pipeline.intake.mark_zip import parts_of, settled, stored
from pipeline.intake.model import Book, Cell, Query, Sheet

AUTHOR = "postquote"
OURS = "— To correct —\n"
"""Stands before our words where the sender's own comment goes before them."""

INFLATED_MOST = 20_000_000
"""Bytes of XML above which the sender's own workbook is not opened (openpyxl needs some 50 times as much memory)."""

CELLS_MOST = 200_000
"""Cells above which no copy is made: no survey is of that size, and writing them takes too long."""

STAMP = "2000-01-01T00:00:00Z"
"""Time in the properties of every copy: same input, same bytes."""

ROWS_MOST, COLUMNS_MOST = 1_048_576, 16_384


class CannotKeepError(Exception):
    """The sender's own workbook cannot be kept whole; the cells are copied instead."""


def own_copy(path: str, file: str, book: Book, queries: Sequence[Query]) -> bytes:
    """The sender's own .xlsx or .xlsm, marked. Errors: CannotKeepError, and whatever openpyxl raises."""
    with zipfile.ZipFile(path) as z:
        if sum(i.file_size for i in z.infolist() if i.filename.casefold().endswith(".xml")) > INFLATED_MOST:
            raise CannotKeepError("too large to open whole")
    wb, drawings = _load(path)
    _drop_lists(wb)
    titles = {s.name: s.name for s in book.sheets if not _is_list(s)}
    if not all(_whole(wb, s) for s in book.sheets if s.name in titles):
        raise CannotKeepError("openpyxl does not read all of its cells")
    for ws in wb.worksheets:
        _unmark(ws)
    for mark in marks(queries, titles):
        _show(wb[mark.sheet], mark.cell)
        _mark(wb[mark.sheet], mark)
    _list_in_front(wb, file, queries, titles, book, _left_out(path, book.format))
    by_name, now = stored(book), [ws.title for ws in wb.worksheets]
    results = {f"xl/worksheets/sheet{i}.xml": by_name[title] for i, title in enumerate(now, 1) if title in by_name}
    return settled(graft(parts_of(_saved(wb)), drawings, now), results, STAMP)


def _whole(wb: Any, sheet: Sheet) -> bool:
    """Whether openpyxl has read every cell that our reader has (it passes over some files' sheets and cells in silence)."""
    if sheet.name not in wb.sheetnames:
        return False
    there = getattr(wb[sheet.name], "_cells", {})
    return all((c.row, c.column) in there for c in sheet.cells)


def _load(path: str) -> tuple[Any, Drawings]:
    """The workbook, and the drawings that are put back once it is saved."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        reader = ExcelReader(path, keep_vba=False, keep_links=True, rich_text=True)
        reader.read()
        wb = reader.wb
        wb.template = False
        if wb.chartsheets:
            return wb, Drawings()  # openpyxl writes their drawings itself
        sheets = {s.name: rel.target for s, rel in reader.parser.find_sheets()}
    with zipfile.ZipFile(path) as z:
        drawings = collect(z, {title: part for title, part in sheets.items() if title in wb.sheetnames})
    for ws in wb.worksheets:
        if ws.title in drawings.by_sheet:
            ws._charts, ws._images = [], []
    return wb, drawings


def _left_out(path: str, format_: str) -> list[str]:
    """What openpyxl cannot carry over, said to the sender: macros and buttons."""
    with zipfile.ZipFile(path) as z:
        names = [n.casefold() for n in z.namelist()]
        drawn = any(n.startswith(("xl/ctrlprops/", "xl/slicers/", "xl/activex/")) for n in names)
    said = ["This copy is without the macros of your file."] if format_ == "xlsm" else []
    if drawn:
        said.append("Buttons and filters that lie upon the sheets are missing from this copy: keep your own file.")
    return said


def new_copy(file: str, book: Book | None, queries: Sequence[Query]) -> bytes:
    """A new workbook with the same cells at the same addresses, marked; only the list where nothing could be read."""
    wb = openpyxl.Workbook()
    wb.remove(wb.active)
    too_large = book is not None and sum(len(s.cells) for s in book.sheets) > CELLS_MOST
    sheets = [s for s in book.sheets if not _is_list(s)] if book and not too_large else []
    titles = _titles(s.name for s in sheets)
    for sheet in sheets:
        _fill(wb.create_sheet(titles[sheet.name]), sheet)
    for mark in marks(queries, titles):
        ws = wb[mark.sheet]
        if ws[mark.cell].data_type == "n" and ws[mark.cell].value is None:
            ws[mark.cell].number_format = "@"
        _mark(ws, mark)
    said = []
    if book is None:
        said = ["Nothing of the file could be read, so none of its cells are here: mend the file itself, or use the empty form."]
    elif too_large:
        said = ["Your file has too many cells to be copied here: correct it in your own file."]
    elif sheets:
        where = "on the next sheet" if len(sheets) == 1 else "on the next sheets"
        said = [f"The cells of your file ({book.format}) stand {where}, at the same addresses."]
    _list_in_front(wb, file, queries, titles, book, said)
    return settled(parts_of(_saved(wb)), {}, STAMP)


def _saved(wb: Any) -> bytes:
    wb.properties.created = datetime.datetime(2000, 1, 1)
    out = io.BytesIO()
    wb.save(out)
    return out.getvalue()


def _list_in_front(
    wb: Any, file: str, queries: Sequence[Query], titles: Mapping[str, str], book: Book | None, said: Sequence[str]
) -> None:
    """The list as the first sheet, and the only one selected (two selected sheets would be edited together)."""
    taken = {t.casefold() for t in wb.sheetnames}
    title = next(t for n in range(1, len(taken) + 2) if (t := TITLE if n == 1 else f"{TITLE} ({n})").casefold() not in taken)
    ws = wb.create_sheet(title, 0)
    write_list(ws, file, queries, titles, book, said)
    wb.active = 0
    for other in wb.worksheets:
        other.sheet_view.tabSelected = other is ws


def _drop_lists(wb: Any) -> None:
    """Take out the list of an earlier round."""
    for ws in list(wb.worksheets):
        if ws.title.startswith(TITLE) and str(ws["A1"].value).startswith(SIGN) and len(wb.worksheets) > 1:
            wb.remove(ws)


def _is_list(sheet: Sheet) -> bool:
    """Whether a sheet is the list of an earlier round."""
    first = sheet.cells[0] if sheet.cells else None
    return sheet.name.startswith(TITLE) and first is not None and str(first.value).startswith(SIGN)


def _unmark(ws: Any) -> None:
    """Take out the marks of an earlier round; a comment of the sender's own stays."""
    for cell in list(ws._cells.values()):
        if isinstance(cell, MergedCell) or cell.comment is None:
            continue
        before, found, _ = cell.comment.text.partition(OURS)
        if not found and cell.comment.author != AUTHOR:
            continue
        cell.comment = Comment(before.rstrip(), cell.comment.author) if found and before.strip() else None
        if cell.fill.fgColor.rgb in (f"00{HOLDS}", f"FF{HOLDS}", f"00{TELLS}", f"FF{TELLS}"):
            cell.fill = PatternFill()


def _show(ws: Any, address: str) -> None:
    """A hidden sheet, row or column with a cell in doubt is shown, so that the sender can get at it."""
    ws.sheet_state = "visible"
    letters = re.sub(r"\d", "", address)
    row = int(address[len(letters) :])
    if row in ws.row_dimensions:
        ws.row_dimensions[row].hidden = False
    if letters in ws.column_dimensions:
        ws.column_dimensions[letters].hidden = False


def _mark(ws: Any, mark: Mark) -> None:
    """Fill and comment one cell; within merged cells the one that shows."""
    cell = ws[mark.cell]
    if isinstance(cell, MergedCell):
        area = next(r for r in ws.merged_cells.ranges if mark.cell in r)
        cell = ws.cell(area.min_row, area.min_col)
    cell.fill = PatternFill("solid", fgColor=HOLDS if mark.holds else TELLS)
    font = copy.copy(cell.font)
    font.color = DARK
    cell.font = font
    if cell.number_format == "General" and cell.data_type != "f":
        cell.number_format = "@"  # else 8-6 typed here would become a date
    old, author = (cell.comment.text.rstrip(), cell.comment.author) if cell.comment else ("", AUTHOR)
    text = clean(f"{old}\n\n{OURS}{mark.text}" if old else mark.text)
    cell.comment = Comment(text, author, height=min(40 + 18 * (len(text) // 40 + text.count("\n") + 1), 400), width=300)


def _titles(names: Iterable[str]) -> dict[str, str]:
    """A sheet name that every spreadsheet program takes, for each name of the file."""
    out: dict[str, str] = {}
    taken: set[str] = {TITLE.casefold()}
    for name in names:
        base = re.sub(r"[\[\]:*?/\\]", "_", clean(name)).strip().strip("'")[:31] or "Survey"
        title, n = base, 1
        while title.casefold() in taken or title.casefold() == "history":
            n += 1
            title = f"{base[: 31 - len(f' ({n})')]} ({n})"
        taken.add(title.casefold())
        out[name] = title
    return out


def _fill(ws: Any, sheet: Sheet) -> None:
    """The cells of a sheet at their addresses: text stays text, a number keeps the unit that it showed."""
    widths: dict[int, int] = {}
    for cell in sheet.cells:
        if cell.row > ROWS_MOST or cell.column > COLUMNS_MOST:
            continue
        _copy(ws, cell)
        widths[cell.column] = max(widths.get(cell.column, 8), min(len(as_shown(cell)) + 2, 40))
    for column, width in sorted(widths.items()):
        ws.column_dimensions[get_column_letter(column)].width = width


def _copy(ws: Any, cell: Cell) -> None:
    """One cell."""
    if cell.kind == "text":
        put(ws, cell.row, cell.column, str(cell.value)).number_format = "@"
    elif cell.kind == "error":
        new = put(ws, cell.row, cell.column, str(cell.value))
        new.data_type = "e" if cell.value in ERROR_CODES else "s"
    elif cell.kind == "date":
        _copy_date(ws, cell)
    elif cell.kind in ("number", "bool"):
        new = ws.cell(cell.row, cell.column, cell.value)
        if cell.shown_unit:
            new.number_format = "0.##%" if cell.shown_unit == "%" else 'General" {}"'.format(cell.shown_unit.replace('"', ""))


def _copy_date(ws: Any, cell: Cell) -> None:
    """A date stays one, so that the cell still shows what is wrong with it."""
    text = str(cell.value)
    try:
        value: Any = (
            datetime.time.fromisoformat(text) if re.fullmatch(r"\d\d:.*", text) else datetime.datetime.fromisoformat(text)
        )
        ws.cell(cell.row, cell.column, value).number_format = "d-mmm-yy" if cell.value and len(text) >= 10 else "hh:mm"
    except ValueError:
        put(ws, cell.row, cell.column, text)
