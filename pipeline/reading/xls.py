"""Old binary workbooks, through the library xlrd."""

from __future__ import annotations

import io
import struct
from collections.abc import Callable, Iterator
from functools import cache, partial
from typing import Any

from pipeline.reading.answers import answer
from pipeline.reading.book import Book, Cell, Sheet, UnreadableFileError
from pipeline.reading.cell_values import SheetCells, number_cell
from pipeline.reading.limits import Budget, refuse
from pipeline.reading.numberformats import BUILT_IN, NumberFormat, number_format
from pipeline.reading.text_values import printable, text_cell

_FORMULAS = (0x0006, 0x0206, 0x0406)
_BEGINS = (0x0009, 0x0209, 0x0409, 0x0809)
_END = 0x000A
_SHEET = 0x0085
"""Record numbers. Source: MS-XLS 2.3.2; those of the older versions: memory."""
_DATE_FORM = "yyyy-mm-dd hh:mm:ss"
_NO_FORMATS = "The workbook's formats are damaged; units that only a format shows, merged cells and hidden rows were not seen."


def read_xls(data: bytes, budget: Budget) -> Book:
    """Cells of every sheet.

    A formula whose stored result is marked as empty may show an empty text or never have been
    computed: it counts as one without a result, unless the workbook was calculated. Formats, merges
    and hidden rows are lost where the workbook's formats are damaged, and that is said.
    """
    import xlrd

    try:
        return _book(_opened(data, formatting=True), budget)
    except xlrd.XLRDError as e:
        if "encrypt" in str(e).lower():
            raise answer("password") from e
    except (MemoryError, UnreadableFileError):
        raise
    except Exception:  # damaged formats raise whatever they hit
        pass
    return _book(_opened(data, formatting=False), Budget(budget.limits))


def _book(book: Any, budget: Budget) -> Book:
    """Every sheet of an opened workbook."""
    if book.nsheets > budget.limits.sheets:
        raise refuse(f"more than {budget.limits.sheets:,} sheets")
    if not book.nsheets:
        raise answer("no sheet")
    notes = [] if book.formatting_info else [_NO_FORMATS]
    sheets = []
    empty = cache(partial(_without_result, book))
    for index in range(book.nsheets):
        made, remarks = _sheet(book, index, budget, empty)
        book.unload_sheet(index)
        sheets.append(made)
        notes.extend(remarks)
    return Book("xls", tuple(sheets), tuple(notes))


def _opened(data: bytes, formatting: bool) -> Any:
    import xlrd

    return xlrd.open_workbook(
        file_contents=data, formatting_info=formatting, ragged_rows=True, on_demand=True, logfile=io.StringIO(), verbosity=0
    )


def _sheet(
    book: Any, index: int, budget: Budget, empty: Callable[[], dict[int, set[tuple[int, int]]] | None]
) -> tuple[Sheet, list[str]]:
    sheet = book.sheet_by_index(index)
    found = SheetCells(printable(sheet.name), budget)
    forms: dict[int, NumberFormat | None] = {}
    for row in range(sheet.nrows):
        types, values = sheet.row_types(row), sheet.row_values(row)
        budget.take_elements(len(types))
        for column, kind in enumerate(types):
            if kind == 1 and values[column] == "":
                places = empty()
                if places is None or (row, column) in places.get(index, ()):
                    found.add(Cell(row + 1, column + 1, "no_result", None))
            elif kind not in (0, 6):  # empty, blank
                form = _form(book, sheet, row, column, kind, forms)
                cell = _cell(row + 1, column + 1, kind, values[column], form, bool(book.datemode))
                if cell is not None:
                    found.add(cell)
    if book.formatting_info:
        _layout(sheet, found)
    return found.sheet(sheet.visibility != 0)


def _layout(sheet: Any, found: SheetCells) -> None:
    """Hidden rows and columns, and merged cells."""
    found.hidden_rows.update(r + 1 for r, info in sheet.rowinfo_map.items() if info.hidden)
    for top, bottom, left, right in sheet.merged_cells:
        found.merge(top + 1, left + 1, bottom, right)
    for column, info in sorted(sheet.colinfo_map.items()):
        if info.hidden:
            found.hide_columns(column + 1, column + 1)


def _form(book: Any, sheet: Any, row: int, column: int, kind: int, forms: dict[int, NumberFormat | None]) -> NumberFormat | None:
    """Number format of a cell; a plain date where xlrd only says that it is one."""
    if not book.formatting_info:
        return number_format(_DATE_FORM) if kind == 3 else None
    index = sheet.cell_xf_index(row, column)
    if index not in forms:
        key = book.xf_list[index].format_key if index < len(book.xf_list) else 0
        form = book.format_map.get(key)
        forms[index] = number_format((form.format_str if form is not None else "") or BUILT_IN.get(key, ""))
    return forms[index]


def _cell(row: int, column: int, kind: int, value: Any, form: NumberFormat | None, from_1904: bool) -> Cell | None:
    """One cell by xlrd's type: 1 text, 2 number, 3 date, 4 truth, 5 error."""
    import xlrd

    if kind == 1:
        return text_cell(row, column, value, form.text_unit if form is not None else "")
    if kind in (2, 3):
        number = int(value) if value == value and abs(value) < 1e15 and value == int(value) else value
        return number_cell(row, column, number, form, from_1904)
    if kind == 4:
        return Cell(row, column, "bool", bool(value))
    return Cell(row, column, "error", xlrd.error_text_from_code.get(value, "#VALUE!"))


def _without_result(book: Any) -> dict[int, set[tuple[int, int]]] | None:
    """Places, 0-based, by sheet, of formulas whose stored result is marked as empty; None where that cannot be told.

    The library shows them as empty texts, so the records are gone through once more. Where another formula
    of the workbook has a result, the workbook was calculated, and an empty result is an empty text.
    Source: MS-XLS 2.4.127 Formula and 2.5.133 FormulaValue.
    """
    if book.mem is None:  # the versions before 5, of which the library keeps no records
        return None
    places: dict[int, set[tuple[int, int]]] = {}
    for index, start in enumerate(_beginnings(book)):
        for at in _formulas(book.mem, start):
            result = book.mem[at + 6 : at + 14]
            if result[6:] == b"\xff\xff" and result[0] == 3:
                places.setdefault(index, set()).add(struct.unpack_from("<HH", book.mem, at))
            elif result.strip(b"\0"):  # some programs store a nought for what they did not calculate
                return {}
    return places


def _beginnings(book: Any) -> list[int]:
    """Where the records of each worksheet begin. Source: MS-XLS 2.4.28 BoundSheet8 (dt 0 is a worksheet)."""
    found: list[int] = []
    at = book.base
    while at + 10 <= len(book.mem):
        code, size = struct.unpack_from("<HH", book.mem, at)
        if code == _SHEET and size >= 6 and book.mem[at + 9] == 0:
            found.append(struct.unpack_from("<i", book.mem, at + 4)[0] + book.base)
        elif code == _END:
            break
        at += 4 + size
    return found


def _formulas(memory: Any, at: int) -> Iterator[int]:
    """Where the content of each formula record of a sheet begins; the sheet's records begin at a place."""
    depth = 0
    while at + 4 <= len(memory):
        code, size = struct.unpack_from("<HH", memory, at)
        at += 4
        if code in _FORMULAS and size >= 14 and at + 14 <= len(memory):
            yield at
        depth += (code in _BEGINS) - (code == _END)
        if depth == 0:
            return
        at += size
