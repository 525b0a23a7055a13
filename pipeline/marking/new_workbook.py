"""A new workbook with the cells of the sender's file at their addresses, marked."""

from __future__ import annotations

import datetime
import math
import re
from collections.abc import Iterable, Sequence
from typing import Any

import openpyxl
from openpyxl.cell.cell import ERROR_CODES
from openpyxl.utils import get_column_letter

from pipeline.intake.layout.answers import is_list
from pipeline.intake.layout.as_shown import as_shown
from pipeline.intake.layout.list_words import TITLE
from pipeline.intake.query import Query
from pipeline.intake.returned import Identity
from pipeline.marking.correction_list import clean, marks, put
from pipeline.marking.mark_cells import STAMP, list_in_front, mark_cell, name_it, saved
from pipeline.marking.zip import parts_of, repacked
from pipeline.reading.book import Book, Cell, Sheet
from pipeline.reading.numberformats import PERCENT

CELLS_MOST = 200_000
"""Cells above which no copy is made: no survey is of that size, and writing them takes too long."""

ROWS_MOST, COLUMNS_MOST = 1_048_576, 16_384


def new_copy(
    file: str, book: Book | None, queries: Sequence[Query], identity: Identity | None = None, too_large: bool = False
) -> bytes:
    """A new workbook with the same cells at the same addresses, marked.

    Only the list where nothing could be read, and where the file is `too_large` to be copied.
    """
    wb = openpyxl.Workbook()
    wb.remove(wb.active)
    too_large = too_large or (book is not None and sum(len(s.cells) for s in book.sheets) > CELLS_MOST)
    sheets = [s for s in book.sheets if not is_list(s)] if book and not too_large else []
    titles = _titles(s.name for s in sheets)
    for sheet in sheets:
        _fill(wb.create_sheet(titles[sheet.name]), sheet)
    for mark in marks(queries, titles):
        ws = wb[mark.sheet]
        if ws[mark.cell].data_type == "n" and ws[mark.cell].value is None:
            ws[mark.cell].number_format = "@"
        mark_cell(ws, mark)
    notices = []
    if too_large:
        notices = ["Your file has too many cells to be copied here: correct it in your own file."]
    elif book is None:
        notices = [
            "Nothing of the file could be read, so none of its cells are here: mend the file itself, or use the empty form."
        ]
    elif sheets:
        where = "on the next sheet" if len(sheets) == 1 else "on the next sheets"
        notices = [f"The cells of your file ({book.format}) stand {where}, at the same addresses."]
    name_it(wb, identity)
    list_in_front(wb, file, queries, titles, book, notices)
    return repacked(parts_of(saved(wb)), {}, STAMP)


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
    elif cell.kind == "no_result":  # never a blank, which could be taken for the default once it comes back
        put(ws, cell.row, cell.column, "#N/A").data_type = "e"
    elif cell.kind == "number" and not math.isfinite(float(cell.value or 0)):
        put(ws, cell.row, cell.column, "#NUM!").data_type = "e"
    elif cell.kind == "date":
        _copy_date(ws, cell)
    elif cell.kind in ("number", "bool"):
        new = ws.cell(cell.row, cell.column, cell.value)
        if cell.shown_unit or (cell.kind == "number" and cell.shown):
            new.number_format = _format(cell)


def _format(cell: Cell) -> str:
    """A number format that shows a number as the sender's own did: its unit, or the text and noughts around it (`S-007`)."""
    if cell.shown_unit == PERCENT:
        return "0.##########%"
    if cell.shown_unit:
        return 'General" {}"'.format(cell.shown_unit.replace('"', ""))
    figures = re.findall(r"\d+(?:\.\d+)?", cell.shown)
    if len(figures) != 1 or '"' in cell.shown or float(figures[0]) != abs(float(cell.value or 0)):
        return "General"
    before, _, after = cell.shown.removeprefix("-").partition(figures[0])
    return "".join((f'"{before}"' if before else "", re.sub(r"\d", "0", figures[0]), f'"{after}"' if after else ""))


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
