"""What both ways to a marked workbook share: marking a cell, the list in front, saving."""

from __future__ import annotations

import copy
import datetime
import io
from collections.abc import Mapping, Sequence
from typing import Any

from openpyxl.cell.cell import MergedCell
from openpyxl.comments import Comment
from openpyxl.packaging.custom import StringProperty
from openpyxl.styles import PatternFill

from pipeline.intake.layout.list_words import TITLE
from pipeline.intake.query import Query
from pipeline.intake.returned import PROPERTY, Identity
from pipeline.marking.correction_list import DARK, HOLDS, TELLS, Mark, clean, write_list
from pipeline.reading.book import Book

AUTHOR = "postquote"
OURS = "— To correct —\n"
"""Stands before our words where the sender's own comment goes before them."""

STAMP = "2000-01-01T00:00:00Z"
"""Time in the properties of every copy: same input, same bytes."""


def saved(wb: Any) -> bytes:
    wb.properties.created = datetime.datetime(2000, 1, 1)
    out = io.BytesIO()
    wb.save(out)
    return out.getvalue()


def name_it(wb: Any, identity: Identity | None) -> None:
    """What the copy answers to, in the workbook's custom properties; the sender's own stay."""
    props = wb.custom_doc_props
    if PROPERTY in props.names:
        del props[PROPERTY]
    if identity is not None:
        props.append(StringProperty(name=PROPERTY, value=clean(identity.text)))


def list_in_front(
    wb: Any, file: str, queries: Sequence[Query], titles: Mapping[str, str], book: Book | None, notices: Sequence[str]
) -> None:
    """The list as the first sheet, and the only one selected (two selected sheets would be edited together)."""
    taken = {t.casefold() for t in wb.sheetnames}
    title = next(t for n in range(1, len(taken) + 2) if (t := TITLE if n == 1 else f"{TITLE} ({n})").casefold() not in taken)
    ws = wb.create_sheet(title, 0)
    write_list(ws, file, queries, titles, book, notices)
    wb.active = 0
    for other in wb.worksheets:
        other.sheet_view.tabSelected = other is ws


def mark_cell(ws: Any, mark: Mark) -> None:
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
