"""The sheet `Survey`: each cell as it was typed next to what it was read as, and what waits for a correction.

Quoted rows carry no file name and no row number: the same survey in another order gives the same sheet.
"""

from __future__ import annotations

from typing import Any

from pipeline.intake.survey.survey_row import SurveyRow
from pipeline.sheets import show
from pipeline.sheets.read_as import read_as
from pipeline.sheets.report import SiteReport
from pipeline.sheets.setup import finish
from pipeline.xlsx.page import Book, Page
from pipeline.xlsx.values import As, Col
from schemas.survey import SURVEY
from schemas.words import CAUTION, HOW_READ

READ = [
    Col("Column", "bold", 24, 23),
    Col("As typed", "text", 40, 27),
    Col("Read as", "text", 40, 27),
    Col("At posts", "text", 40, 25),
    Col("Remark", "quiet", 27, 25),
]
HELD = [
    Col("Post held", "bold", 24),
    Col("What is wrong", "text", 40, 30),
    Col("What to type instead", "text", 40, 30),
    Col("As typed, and where", "text", 40, 30),
    Col("Query", "quiet", 24),
]
OPEN = [
    Col("Post asked about", "bold", 24),
    Col("What it is about", "text", 40, 30),
    Col("What to do", "text", 40, 30),
    Col("As typed there", "text", 40),
    Col("Query code", "quiet", 24),
]

_OF_SITE = ("site_code", "site_name", "customer", "site_kind")
EVERY = "every post"


def row_cells(row: SurveyRow, feet: bool) -> list[tuple[Any, ...]]:
    """What was typed and read, a row a column of the survey: heading, typed, read as, remark."""
    made: list[tuple[Any, ...]] = []
    for column in SURVEY.columns:
        name = column.name
        typed, value = row.typed.get(name, ""), getattr(row, name)
        if name == "post_code" or (name not in row.typed and value in (None, "")):
            continue
        if name in _OF_SITE and not (typed or value):
            continue
        remark = _remark(row, name, typed)
        made.append((column.heading, typed or As("blank", "quiet"), read_as(column, value, feet), remark or None))
    for heading, text in sorted(row.extra.items()):
        made.append((heading, text, "carried through, not read", None))
    for sentence in row.remarks:
        made.append(("Inferred", None, sentence, None))
    return made


def _remark(row: SurveyRow, name: str, typed: str) -> str:
    """Where a value comes from that was not typed in the cell itself."""
    origin = next((o for o in row.origins if o.name == name), None)
    if origin:
        return ", ".join(filter(None, (f"{HOW_READ[origin.how]} {origin.file}".rstrip(), origin.who)))
    if name in row.unread:
        return "could not be read: not known"
    if typed or name in _OF_SITE:
        return ""
    return "not stated, taken as the default" if name in row.not_stated else "inferred"


def read_rows(report: SiteReport) -> list[list[Any]]:
    """What was typed and read, column by column; what is the same at several posts stands there once."""
    cells: dict[tuple[Any, ...], list[str]] = {}
    for post in report.posts:
        for cell in row_cells(post.row, report.feet):
            cells.setdefault(cell, []).append(post.row.post_code)
    order = {heading: i for i, heading in enumerate(dict.fromkeys(heading for heading, *_ in cells))}
    rows = sorted(cells.items(), key=lambda found: order[found[0][0]])
    every = len(report.posts)
    return [
        [heading, typed, read, EVERY if len(posts) == every else show.listed(posts), remark]
        for (heading, typed, read, remark), posts in rows
    ]


def held_rows(report: SiteReport) -> list[list[Any]]:
    """Held rows with what is wrong, where, and what to type instead."""
    made: list[list[Any]] = []
    for row in report.held:
        for query in (q for q in report.queries if q.holds_row and q.is_about(row)):
            place = ", ".join(part for part in (query.file, query.sheet, query.cell) if part)
            typed = row.typed.get(query.name, "") or "blank"
            made.append([row.post_code or "no name", query.message, query.suggestion or None, f"{typed}: {place}", query.code])
    return made


def write_survey(book: Book, report: SiteReport) -> None:
    """Writes the sheet."""
    page = book.page("Survey", "#4A5A64")
    page.title("Survey: what was typed, and what it was read as")
    row = page.para(1, CAUTION, "caution")
    held = held_rows(report)
    if held:
        row = _table(page, row + 1, "Rows that wait for a correction", "survey_held", HELD, held)
    asked = [
        [q.post_code or "the site", q.message, q.suggestion or None, q.cell or None, q.code]
        for q in report.queries
        if not q.holds_row
    ]
    if asked:
        row = _table(page, row + 1, "What was asked for and cannot be, or is to be confirmed", "survey_asked", OPEN, asked)
    rows = read_rows(report)
    if rows:
        row = page.section(row + 1, "Every cell as typed and as read", len(READ))
        row = page.table(row, "survey_read", READ, rows, "Cells of the survey as typed and as read")
    else:
        row = page.para(row + 1, "No row of this site could be quoted yet: all wait for a correction, see above.", "strong")
    if not held:
        page.para(row + 1, "No row waits for a correction: every row of this site was read.")
    finish(page, report, 0, landscape=False)


def _table(page: Page, row: int, title: str, name: str, columns: list[Col], rows: list[list[Any]]) -> int:
    first = row
    end = page.table(page.section(row, title, len(columns)), name, columns, rows, title)
    page.keep(first, min(end - 1, first + 6))
    return end
