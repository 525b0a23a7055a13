"""The sender's own workbook, opened, marked and saved with everything of theirs in it."""

from __future__ import annotations

import io
import re
import warnings
import zipfile
from collections.abc import Sequence
from typing import Any

from openpyxl import load_workbook
from openpyxl.cell.cell import MergedCell
from openpyxl.comments import Comment
from openpyxl.reader.excel import ExcelReader
from openpyxl.styles import PatternFill

from pipeline.intake.layout.answers import is_list, with_answers
from pipeline.intake.layout.as_shown import as_shown
from pipeline.intake.layout.list_words import SIGN, TITLE
from pipeline.intake.query import Query
from pipeline.intake.returned import Identity
from pipeline.marking.carried_drawings import Drawings, collect, graft, without_drawings
from pipeline.marking.correction_list import HOLDS, TELLS, marks
from pipeline.marking.mark_cells import AUTHOR, OURS, STAMP, list_in_front, mark_cell, name_it, saved
from pipeline.marking.zip import parts_of, repacked, stored
from pipeline.reading.book import Book, Cell, Sheet

CELLS_MOST = 2_000_000
"""Cells, filled or not, of the largest sheet that is kept."""
INFLATED_MOST = 20_000_000
"""Bytes of XML above which the sender's own workbook is not opened (openpyxl needs some 50 times as much memory)."""


class CannotKeepError(Exception):
    """The sender's own workbook cannot be kept whole; the cells are copied instead."""


def own_copy(path: str, file: str, book: Book, queries: Sequence[Query], identity: Identity | None = None) -> bytes:
    """The sender's own .xlsx or .xlsm, marked, the answers to an earlier list in their cells.

    Errors: CannotKeepError, and whatever openpyxl raises.
    """
    filled, answers = with_answers(book)
    with zipfile.ZipFile(path) as z:
        if sum(i.file_size for i in z.infolist() if i.filename.casefold().endswith(".xml")) > INFLATED_MOST:
            raise CannotKeepError("too large to open whole")
    wb, drawings = _load(path)
    _drop_lists(wb)
    titles = {s.name: s.name for s in book.sheets if not is_list(s)}
    if not all(_whole(wb, s) for s in book.sheets if s.name in titles):
        raise CannotKeepError("openpyxl does not read all of its cells")
    for ws in wb.worksheets:
        _unmark(ws)
    for sheet in book.sheets:
        if sheet.name in titles:
            _blank_again(wb[sheet.name], sheet)
    for (title, cell), answer in answers.taken.items():
        _answer(wb[title], cell, answer)
    for mark in marks(queries, titles):
        _show(wb[mark.sheet], mark.cell)
        mark_cell(wb[mark.sheet], mark)
    name_it(wb, identity)
    list_in_front(wb, file, queries, titles, filled, _left_out(path, book.format, drawings))
    by_name, now = stored(book), [ws.title for ws in wb.worksheets]
    results = {f"xl/worksheets/sheet{i}.xml": by_name[title] for i, title in enumerate(now, 1) if title in by_name}
    return repacked(graft(parts_of(saved(wb)), drawings, now), results, STAMP)


def _whole(wb: Any, sheet: Sheet) -> bool:
    """Whether openpyxl has read every cell that our reader has (it passes over some files' sheets and cells in silence)."""
    if sheet.name not in wb.sheetnames:
        return False
    ws = wb[sheet.name]
    cells = (ws.cell(c.row, c.column) for c in sheet.cells)
    return all(isinstance(cell, MergedCell) or cell.value is not None for cell in cells)


def _blank_again(ws: Any, sheet: Sheet) -> None:
    """Take out the address that openpyxl writes into a blank cell with a link."""
    filled = {(c.row, c.column) for c in sheet.cells}
    for cell in _cells(ws):
        if (cell.row, cell.column) not in filled and cell.hyperlink is not None and cell.data_type != "f":
            cell.value = None


def _cells(ws: Any) -> list[Any]:
    """Every cell that can hold something. Errors: CannotKeepError where the sheet is too large to be gone through."""
    if ws.max_row * ws.max_column > CELLS_MOST:
        raise CannotKeepError("too large to go through")
    return [cell for row in ws.iter_rows() for cell in row if not isinstance(cell, MergedCell)]


def _load(path: str) -> tuple[Any, Drawings]:
    """The workbook without the drawings of its sheets, and the drawings, which are put back once it is saved."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        reader = ExcelReader(path)
        reader.read_manifest()
        reader.read_workbook()
        sheets = {s.name: rel.target for s, rel in reader.parser.find_sheets() if rel.target in reader.valid_files}
        charts = any(rel.Type.endswith("/chartsheet") for _, rel in reader.parser.find_sheets())
        with zipfile.ZipFile(path) as z:
            drawings = Drawings() if charts else collect(z, sheets)  # openpyxl writes drawings beside chart sheets itself
            bare = without_drawings(z, [sheets[title] for title in drawings.by_sheet])
        wb = load_workbook(io.BytesIO(bare), keep_links=True, rich_text=True)
    wb.template = False
    return wb, drawings


def _left_out(path: str, format_: str, drawings: Drawings) -> list[str]:
    """What openpyxl cannot carry over, said to the sender: macros and buttons."""
    with zipfile.ZipFile(path) as z:
        names = [n.casefold() for n in z.namelist()]
        drawn = any(n.startswith(("xl/ctrlprops/", "xl/slicers/", "xl/activex/")) for n in names)
    notices = ["This copy is without the macros of your file."] if format_ == "xlsm" else []
    if drawn:
        notices.append("Buttons and filters that lie upon the sheets are missing from this copy: keep your own file.")
    if drawings.left_out:
        listed = ", ".join(f"“{t}”" for t in drawings.left_out)
        notices.append(f"Drawings on {listed} may be missing from this copy, since they hold parts of an unknown kind.")
    return notices


def _drop_lists(wb: Any) -> None:
    """Take out the list of an earlier round."""
    for ws in list(wb.worksheets):
        if ws.title.startswith(TITLE) and str(ws["A1"].value).startswith(SIGN) and len(wb.worksheets) > 1:
            wb.remove(ws)


def _unmark(ws: Any) -> None:
    """Take out the marks of an earlier round; a comment of the sender's own stays."""
    for cell in _cells(ws):
        if cell.comment is None:
            continue
        before, found, _ = cell.comment.text.partition(OURS)
        if not found and cell.comment.author != AUTHOR:
            continue
        cell.comment = Comment(before.rstrip(), cell.comment.author) if found and before.strip() else None
        if cell.fill.fgColor.rgb in (f"00{HOLDS}", f"FF{HOLDS}", f"00{TELLS}", f"FF{TELLS}"):
            cell.fill = PatternFill()


def _answer(ws: Any, address: str, answer: Cell) -> None:
    """An answer of the list in the cell that it answers."""
    cell = ws[address]
    if isinstance(cell, MergedCell):
        return
    cell.value = answer.value if answer.kind in ("number", "bool") else as_shown(answer)
    if cell.data_type == "f":
        cell.data_type = "s"
    if answer.kind not in ("number", "bool"):
        cell.number_format = "@"


def _show(ws: Any, address: str) -> None:
    """A hidden sheet, row or column with a cell in doubt is shown, so that the sender can get at it."""
    ws.sheet_state = "visible"
    letters = re.sub(r"\d", "", address)
    row = int(address[len(letters) :])
    if row in ws.row_dimensions:
        ws.row_dimensions[row].hidden = False
    if letters in ws.column_dimensions:
        ws.column_dimensions[letters].hidden = False
