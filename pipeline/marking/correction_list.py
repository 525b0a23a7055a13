"""The sheet `To correct`: one row a query, with a link to its cell; and the words of a mark."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from openpyxl.styles import Alignment, Border, Font, PatternFill, Side
from openpyxl.worksheet.datavalidation import DataValidation
from openpyxl.worksheet.hyperlink import Hyperlink

from pipeline.intake.layout.as_shown import as_shown
from pipeline.intake.layout.list_words import ANSWER, BLANK, HEADINGS, NOTHING, SIGN
from pipeline.intake.query import Query
from pipeline.reading.book import Book, place
from schemas.survey import SURVEY

WIDTHS = (5, 18, 9, 26, 52, 44, 26, 16)
_SHOWN_MOST = 255  # characters of a drop-down's words. Source: ECMA-376-1 18.3.1.32 (memory)

DARK = "1F2933"
HOLDS = "FFD978"  # amber: the row waits for this cell
ANSWERS = "FFFBE6"  # pale yellow: to be filled in
TELLS = "CFE4F7"  # pale blue: worth a look, nothing waits
NOTHING_READ = ("NO_HEADINGS", "UNREADABLE_FILE")
"""Queries about a file of which no row was read: all of them wait."""
_COLUMNS = {c.name: c for c in SURVEY.columns}
RULE = Side("thin", color="9AA5B1")
_ILLEGAL = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x84\x86-\x9f\ud800-\udfff\ufffe\uffff]")


@dataclass(frozen=True, slots=True)
class Mark:
    """One cell in doubt: where it stands in the copy, and its queries."""

    sheet: str
    cell: str
    queries: tuple[Query, ...]

    @property
    def holds(self) -> bool:
        """Whether a row waits for it."""
        return any(q.holds_row or q.code in NOTHING_READ for q in self.queries)

    @property
    def text(self) -> str:
        """The comment: what is wrong, what to type instead."""
        return "\n\n".join(
            f"{q.message}\nInstead: {q.suggestion}{typing(q)}" if q.suggestion else q.message for q in self.queries
        )


def typing(query: Query) -> str:
    """How to type it, where a spreadsheet program would turn it into a date again."""
    if query.code != "DATE_CELL":
        return ""
    return " (Set the cell's format to Text first, or type an apostrophe before it, so that it does not become a date again.)"


def in_order(queries: Iterable[Query]) -> list[Query]:
    """Queries by sheet, row and column; rows that wait for the answer about a heading stand behind that one question."""
    listed = list(queries)
    waited = {(q.sheet, q.cell) for q in listed if q.code == "HEADING" and q.holds_row}
    asked = [q for q in listed if not (q.code == "HEADING" and q.record)]
    asked = [replace(q, holds_row=True) if q.code == "HEADING" and (q.sheet, q.cell) in waited else q for q in asked]
    return sorted(asked, key=lambda q: (q.sheet, *place(q.cell), q.cell, q.code, q.message, q.suggestion))


def marks(queries: Sequence[Query], titles: Mapping[str, str]) -> list[Mark]:
    """Queries with a cell, by cell; `titles` gives the sheet of the copy for a sheet of the file."""
    by_cell: dict[tuple[str, str], list[Query]] = {}
    for q in in_order(queries):
        if q.sheet in titles and 0 < place(q.cell)[0] <= 1048576:
            by_cell.setdefault((titles[q.sheet], q.cell), []).append(q)
    return [Mark(sheet, cell, tuple(found)) for (sheet, cell), found in by_cell.items()]


def _font(size: int = 11, color: str = DARK, **more: Any) -> Font:
    return Font(name="Calibri", size=size, color=color, **more)


def clean(text: str) -> str:
    """Text that a workbook can hold: nothing that XML forbids, at most 32,767 characters."""
    return _ILLEGAL.sub("", text)[:32767]


def put(ws: Any, row: int, column: int, text: str) -> Any:
    """Write `text` as text, never as a formula or an error."""
    cell = ws.cell(row, column)
    cell.value = clean(text)
    cell.data_type = "s"
    return cell


def write_list(
    ws: Any, file: str, queries: Sequence[Query], titles: Mapping[str, str], book: Book | None, notices: Sequence[str] = ()
) -> None:
    """Fill the sheet: what to do, then one row a query with a link to its cell."""
    shown = {(s.name, c.address): as_shown(c) for s in (book.sheets if book else ()) for c in s.cells}
    put(ws, 1, 1, SIGN + file).font = _font(14, bold=True)
    lines = [
        "Correct each cell listed here, or type what belongs there under Your answer. Save the workbook and send it back.",
        "You may leave this sheet, the colours and the comments as they are.",
        "Amber cells: the row waits for an answer. Blue cells: worth a look, nothing waits for it.",
        *notices,
    ]
    for i, line in enumerate(lines, 2):
        put(ws, i, 1, line).font = _font()
    top = len(lines) + 3
    for column, (heading, width) in enumerate(zip(HEADINGS, WIDTHS, strict=True), 1):
        cell = put(ws, top, column, heading)
        cell.font, cell.fill = _font(color="FFFFFF", bold=True), PatternFill("solid", fgColor="2F4858")
        cell.alignment, cell.border = Alignment(wrap_text=True, vertical="center"), Border(bottom=RULE)
        ws.column_dimensions[cell.column_letter].width = width
    for n, query in enumerate(in_order(queries), 1):
        _row(ws, top + n, n, query, titles, shown)
    _page(ws, top)


def _row(ws: Any, row: int, n: int, query: Query, titles: Mapping[str, str], shown: Mapping[tuple[str, str], str]) -> None:
    """One query."""
    stands = shown.get((query.sheet, query.cell), BLANK if query.cell else "")
    holds = "yes" if query.holds_row else "all of them" if query.code in NOTHING_READ else "no"
    where = titles.get(query.sheet, query.sheet) if query.cell else "(the whole file)"
    texts = ("", where, query.cell, stands, query.message, query.suggestion + typing(query), "", holds)
    for column, text in enumerate(texts, 1):
        cell = put(ws, row, column, text)
        cell.alignment, cell.border = Alignment(wrap_text=True, vertical="top"), Border(bottom=RULE)
        cell.font, cell.number_format = _font(), "@"
    number = ws.cell(row, 1, n)
    number.number_format, number.alignment = "0", Alignment(horizontal="left", vertical="top")
    if query.cell:
        ws.cell(row, ANSWER + 1).fill = PatternFill("solid", fgColor=ANSWERS)
        _offer(ws, row, query)
        ws.cell(row, 3).fill = PatternFill("solid", fgColor=TELLS if holds == "no" else HOLDS)
    longest = max(len(t) / (w * 0.95) + t.count("\n") for t, w in zip(texts, WIDTHS, strict=True))
    ws.row_dimensions[row].height = min(15 * (int(longest) + 1), 400)
    title = titles.get(query.sheet)
    if title is not None and query.cell:
        link = ws.cell(row, 3)
        place = "'{}'!{}".format(title.replace("'", "''"), query.cell)
        link.hyperlink = Hyperlink(ref=link.coordinate, location=place, display=query.cell, tooltip="Go to the cell")
        link.font = _font(color="0B4F8A", underline="single")


def _offer(ws: Any, row: int, query: Query) -> None:
    """A drop-down where a list is meant; other words may be typed as well."""
    words = _offered(query)
    listed = ",".join(words)
    if words and len(listed) <= _SHOWN_MOST and not any("," in w or '"' in w for w in words):
        offer = DataValidation("list", formula1=f'"{listed}"', allow_blank=True, showErrorMessage=False)
        ws.add_data_validation(offer)
        offer.add(ws.cell(row, ANSWER + 1))


def _offered(query: Query) -> tuple[str, ...]:
    """What can be picked: words of the column's list, or columns that a heading can mean."""
    column = _COLUMNS.get(query.name)
    if query.code == "HEADING":
        return (*(w.strip() for w in query.suggestion.split(";") if w.strip()), NOTHING)
    return column.values if column and column.values else ()


def _page(ws: Any, top: int) -> None:
    """Frozen headings; landscape, one page wide, headings on every page."""
    ws.freeze_panes = ws.cell(top + 1, 1)
    ws.sheet_view.showGridLines = False
    ws.page_setup.orientation, ws.page_setup.fitToHeight = "landscape", 0
    ws.sheet_properties.pageSetUpPr.fitToPage = True
    ws.print_title_rows = f"{top}:{top}"
    ws.oddFooter.center.text = "Page &P of &N"
