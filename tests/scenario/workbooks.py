"""Writes workbooks: .xlsx, .xlsm, one without stored results, and our own form filled in."""

from __future__ import annotations

import io
import re
import zipfile
from collections.abc import Callable, Mapping, Sequence
from datetime import datetime
from typing import Any

import openpyxl
import xlsxwriter

from pipeline.forms import survey_form
from scenario.cells import Day, Formula, Row, Sheet

MADE = datetime(2026, 2, 2, 8, 0)
"""When every example file says that it was made: no clock, so the same bytes each time."""

_STAMP = b"2026-02-02T08:00:00Z"
_MACRO_BOOK = b"application/vnd.ms-excel.sheet.macroEnabled.main+xml"
_PLAIN_BOOK = b"application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml"


def xlsx(sheets: Sequence[Sheet]) -> bytes:
    """A workbook as a spreadsheet program writes it: results of formulas stored, dates with their formats."""
    out = io.BytesIO()
    book = xlsxwriter.Workbook(out, {"in_memory": True})
    book.set_properties({"created": MADE})
    bold = book.add_format({"bold": True, "text_wrap": True, "valign": "top", "bottom": 1})
    title = book.add_format({"bold": True, "font_size": 14})
    for sheet in sheets:
        ws = book.add_worksheet(sheet.name)
        for at, width in (dict.fromkeys(range(_width(sheet)), 12.0) | sheet.widths).items():
            ws.set_column(at, at, width)
        for y, row in enumerate(sheet.all_rows):
            form = bold if y in sheet.head_rows else title if y == 0 and sheet.above else None
            for x, value in enumerate(row):
                _put(book, ws, y, x, value, form)
        if sheet.merged:
            ws.merge_range(0, 0, 0, sheet.merged - 1, sheet.all_rows[0][0], title)
        for n in sheet.hidden:
            ws.set_row(n - 1, None, None, {"hidden": True})
        ws.freeze_panes(sheet.head_rows.stop, 0)
    book.close()
    return out.getvalue()


def _width(sheet: Sheet) -> int:
    return max(len(r) for r in sheet.rows)


def _put(book: Any, ws: Any, y: int, x: int, value: Any, form: Any) -> None:
    if isinstance(value, Day):
        ws.write_datetime(y, x, datetime.combine(value.day, datetime.min.time()), book.add_format({"num_format": value.form}))
    elif isinstance(value, Formula):
        ws.write_formula(y, x, value.text, form, value.result)
    elif isinstance(value, str):
        ws.write_string(y, x, value, form)
    elif value is not None:
        ws.write_number(y, x, value, form)


def xlsm(sheets: Sequence[Sheet]) -> bytes:
    """A workbook that says that it may hold macros; it holds none."""
    return _repacked(xlsx(sheets), lambda _, part: part.replace(_PLAIN_BOOK, _MACRO_BOOK))


def without_results(sheets: Sequence[Sheet]) -> bytes:
    """A workbook that no spreadsheet program has worked out yet: its formulas have no stored results."""
    book = openpyxl.Workbook()
    book.remove(book.active)
    for sheet in sheets:
        ws = book.create_sheet(sheet.name)
        for row in sheet.all_rows:
            ws.append([c.text if isinstance(c, Formula) else c for c in row])
        for n in sheet.hidden:
            ws.row_dimensions[n].hidden = True
    return _saved(book)


def form_filled(rows: Sequence[Mapping[str, Any]]) -> bytes:
    """Our own empty form with `rows` typed in, by heading without its unit."""
    book = openpyxl.load_workbook(io.BytesIO(survey_form()))
    ws = book["Survey"]
    head = next(r for r in range(1, 20) if str(ws.cell(r, 1).value or "").startswith("Site code"))
    at = {str(c.value).partition(" [")[0]: c.column for c in ws[head]}
    for y, row in enumerate(rows, head + 1):
        for heading, value in row.items():
            ws.cell(y, at[heading]).value = value
    return _saved(book)


def _saved(book: Any) -> bytes:
    out = io.BytesIO()
    book.save(out)
    return _repacked(out.getvalue(), _stamped)


def _stamped(name: str, part: bytes) -> bytes:
    """The part with the one time stamp of all examples."""
    return re.sub(rb"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\dZ", _STAMP, part) if name == "docProps/core.xml" else part


def _repacked(data: bytes, change: Callable[[str, bytes], bytes]) -> bytes:
    """The zip with each part changed and no time of its own."""
    with zipfile.ZipFile(io.BytesIO(data)) as z:
        return zipped({n: change(n, z.read(n)) for n in z.namelist()})


def zipped(parts: Mapping[str, bytes], stored: str = "") -> bytes:
    """A zip of the parts, in order, all of one date; `stored` is a part that is not packed."""
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w") as z:
        for name, content in parts.items():
            info = zipfile.ZipInfo(name, MADE.timetuple()[:6])
            info.compress_type = zipfile.ZIP_STORED if name == stored else zipfile.ZIP_DEFLATED
            info.external_attr = 0o600 << 16
            z.writestr(info, content)
    return out.getvalue()


def typed_rows(rows: Sequence[Row]) -> list[dict[str, Any]]:
    """Rows below a heading row, each by heading, blanks left out."""
    head, *body = rows
    return [{str(h): c for h, c in zip(head, row, strict=False) if c is not None} for row in body]
