"""The empty catalogue: one sheet a table, and every policy setting with its documented default."""

from __future__ import annotations

from typing import Any

from pipeline.forms.form_parts import Form, landscape, lines, note, validate
from pipeline.forms.form_words import HOW
from schemas.catalogue import CATALOGUE, PAIRINGS, PARTICULARS, SELLER
from schemas.column import Column, Table
from schemas.policy import POLICY, SETTINGS, Setting

ROWS = 120
"""Empty rows of each table that have formats and drop-downs."""

START = "Read me"
_WIDTHS = {
    "description": 38,
    "note": 44,
    "customer": 28,
    "also_known_as": 28,
    "contact": 28,
    "address": 34,
    "ship_to": 34,
    "payment_terms": 34,
    "choice": 16,
    "item": 16,
    "face": 18,
    "frame": 18,
    "size_least_m": 11,
    "size_most_m": 11,
}


def build() -> bytes:
    """The workbook."""
    form = Form("Catalogue")
    for table in CATALOGUE:
        {POLICY.name: _policy, SELLER.name: _seller}.get(table.name, _table)(form, table)
    _read_me(form)
    return form.done()


def _table(form: Form, table: Table) -> None:
    """Headings with units and notes, empty rows with drop-downs."""
    ws = form.book.add_worksheet(table.name)
    ws.set_row(0, 48)
    for at, column in enumerate(table.columns):
        ws.write_string(0, at, column.titled, form.head_needed if column.needed else form.head)
        ws.set_column(at, at, _WIDTHS.get(column.name, 13))
        ws.write_comment(0, at, note(column), {"author": "", "x_scale": 1.6, "y_scale": 0.9, "visible": False})
        if table is PAIRINGS:
            _from_sheet(ws, column, at)
        else:
            validate(ws, column, 1, at, ROWS)
        for row in range(1, ROWS + 1):
            ws.write_blank(row, at, None, form.format(column))
    _page(ws, 0, table, ROWS)


def _from_sheet(ws: Any, column: Column, at: int) -> None:
    """A drop-down of the codes that stand on the item's own sheet."""
    rule = {
        "validate": "list",
        "source": f"={column.heading}s!$A$2:$A$500",
        "error_title": "No such code",
        "error_message": f"Choose a code that stands on the sheet {column.heading}s.",
        "input_title": column.heading,
        "input_message": note(column, 255),
    }
    ws.data_validation(1, at, ROWS, at, rule)


def _page(ws: Any, heading_row: int, table: Table, last_row: int) -> None:
    ws.ignore_errors({"number_stored_as_text": f"A1:AZ{last_row + 1}"})
    ws.freeze_panes(heading_row + 1, 1)
    landscape(ws, heading_row, len(table.columns) - 1, last_row)


def _seller(form: Form, table: Table) -> None:
    """Every particular of the seller, with room for what the quotation says."""
    ws = form.book.add_worksheet(table.name)
    for at, (column, width) in enumerate(zip(table.columns, (20, 90), strict=True)):
        ws.write_string(0, at, column.titled, form.head_needed if column.needed else form.head)
        ws.set_column(at, at, width)
        ws.write_comment(0, at, note(column), {"author": "", "x_scale": 1.6, "visible": False})
        validate(ws, column, 1, at, len(PARTICULARS))
    for row, particular in enumerate(PARTICULARS, 1):
        ws.write_string(row, 0, particular, form.text)
        ws.write_blank(row, 1, None, form.text)
    _page(ws, 0, table, len(PARTICULARS))


def _policy(form: Form, table: Table) -> None:
    """Every setting with its documented default, its unit, what it is and where it is from."""
    ws = form.book.add_worksheet(table.name)
    for at, (column, width) in enumerate(zip(table.columns, (30, 14, 10, 110), strict=True)):
        ws.write_string(0, at, column.titled, form.head)
        ws.set_column(at, at, width)
        ws.write_comment(0, at, note(column), {"author": "", "x_scale": 1.6, "visible": False})
    for row, setting in enumerate(SETTINGS, 1):
        ws.write_string(row, 0, setting.name, form.text)
        _default(form, ws, row, setting)
        ws.write_string(row, 2, setting.unit, form.text)
        words = f"{setting.help[:1].upper()}{setting.help[1:]}. Source: {setting.source}."
        ws.write_string(row, 3, words, form.cell)
        ws.set_row(row, 16 * lines(words, 108))
    _page(ws, 0, table, len(SETTINGS))


def _default(form: Form, ws: Any, row: int, setting: Setting) -> None:
    """The documented default as a number where it is one, with its list or its bounds."""
    words = Column(setting.name, setting.name, setting.kind, values=setting.values, help=f"{setting.help}."[:200])
    if setting.values:
        validate(ws, words, row, 1, row)
    try:
        ws.write_number(row, 1, float(setting.default), form.left)
    except ValueError:
        ws.write_string(row, 1, setting.default, form.text)


def _read_me(form: Form) -> None:
    """How to fill it in, on the last sheet: the tables come first."""
    ws = form.book.add_worksheet(START)
    ws.hide_gridlines(2)
    ws.set_column(0, 0, 16)
    ws.set_column(1, 1, 100)
    ws.write_string(0, 0, "How to fill in the catalogue", form.title)
    ws.set_row(0, 24)
    for row, (sheet, text) in enumerate(HOW, 2):
        ws.write_string(row, 0, sheet, form.bold)
        ws.write_string(row, 1, text, form.plain)
        ws.set_row(row, 16 * lines(text, 98))
    ws.set_landscape()
    ws.fit_to_pages(1, 0)
    ws.set_footer("&L&F&C&A&RPage &P of &N")
