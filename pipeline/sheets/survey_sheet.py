"""The sheet `Survey`: each cell as it was typed next to what it was read as, and what waits for a correction.

Quoted rows carry no file name and no row number: the same survey in another order gives the same sheet.
"""

from __future__ import annotations

from typing import Any

from pipeline.intake.survey.survey_row import SurveyRow
from pipeline.sheets import show
from pipeline.sheets.report import Setting, SiteReport
from pipeline.sheets.setup import finish
from pipeline.xlsx.page import Book, Page
from pipeline.xlsx.values import As, Col
from schemas.column import SI_UNIT, Column
from schemas.survey import SURVEY
from schemas.words import CAUTION

READ = [
    Col("Post", "bold", 24),
    Col("Column", "text", 24),
    Col("As typed", "text", 40),
    Col("Read as", "text", 40),
    Col("In SI", "text", 30),
    Col("Remark", "quiet", 40),
]
HELD = [
    Col("Post held", "bold", 24),
    Col("Query", "text", 24),
    Col("What is wrong", "text", 40),
    Col("What to type instead", "text", 40),
    Col("As typed", "text", 30),
    Col("File, sheet and cell", "text", 40),
]

_OF_SITE = ("site_code", "site_name", "customer", "site_kind")


def read_as(column: Column, value: Any, feet: bool) -> tuple[str, str]:
    """A value as it was read: in the site's units, and in SI where it has a unit."""
    if value is None:
        return show.UNKNOWN, ""
    if column.kind == "lengths":
        values = value if isinstance(value, (tuple, list)) else (value,)
        return "; ".join(show.length(v, feet) for v in values), "; ".join(f"{v:.4f}" for v in values) + " m"
    if column.name == "wall" and feet:
        return f"{value / show.INCH:.3f} in", f"{value:.4f} m"  # sixteenths are too coarse for a wall
    if column.kind in ("length", "pipe"):
        return show.length(value, feet), f"{value:.4f} m"
    if column.kind == "angle":
        return show.angle(value), f"{value:.5f} rad"
    if column.kind == "speed":
        return show.speed(value, feet), f"{value:.2f} m/s"
    unit = SI_UNIT.get(column.kind, "")
    return str(value), f"{value:g} {unit}" if unit else ""


EVERY = "every post"


def row_cells(row: SurveyRow, feet: bool) -> list[tuple[Any, ...]]:
    """What was typed and read, a row a column of the survey: heading, typed, read as, SI, remark."""
    made: list[tuple[Any, ...]] = []
    for column in SURVEY.columns:
        name = column.name
        typed, value = row.typed.get(name, ""), getattr(row, name)
        if name == "post_code" or (name not in row.typed and value in (None, "")):
            continue
        if name in _OF_SITE and not (typed or value):
            continue
        words, metric = read_as(column, value, feet)
        remark = "" if typed or name in _OF_SITE else "not stated, taken as the default" if name in row.not_stated else "inferred"
        made.append((column.heading, typed or As("blank", "quiet"), words, metric or None, remark or None))
    for heading, text in sorted(row.extra.items()):
        made.append((heading, text, "carried through, not read", None, None))
    for sentence in row.said:
        made.append(("Inferred", None, sentence, None, None))
    return made


def read_rows(report: SiteReport) -> list[list[Any]]:
    """What was typed and read: what is the same at every post stands there once, the rest post by post."""
    cells = [(post.row.post_code, row_cells(post.row, report.feet)) for post in report.posts]
    same = set.intersection(*(set(of_post) for _, of_post in cells)) if len(cells) > 1 else set()
    shared = [[EVERY, *cell] for cell in cells[0][1] if cell in same] if cells else []
    return [*shared, *([code, *cell] for code, of_post in cells for cell in of_post if cell not in same)]


def held_rows(report: SiteReport) -> list[list[Any]]:
    """Held rows with what is wrong, where, and what to type instead."""
    made: list[list[Any]] = []
    for row in report.held:
        for query in (q for q in report.queries if q.holds_row and q.is_about(row)):
            place = ", ".join(part for part in (query.file, query.sheet, query.cell) if part)
            typed = row.typed.get(query.name, "")
            made.append(
                [
                    row.post_code or "no name",
                    query.code,
                    query.message,
                    query.suggestion or None,
                    typed or As("blank", "quiet"),
                    place,
                ]
            )
    return made


def write_survey(book: Book, report: SiteReport, setting: Setting) -> None:
    """Writes the sheet."""
    page = book.page("Survey", "#4A5A64")
    page.title("Survey: what was typed, and what it was read as")
    row = page.para(1, CAUTION, "caution")
    rows = read_rows(report)
    top = 0
    if rows:
        row = page.para(row, f"What is the same at all posts stands there once, as “{EVERY}”.", "note")
        top = row
        row = page.table(top, "survey_read", READ, rows, "Cells of the survey as typed and as read")
    else:
        row = page.para(row + 1, "No row of this site could be quoted yet: all wait for a correction, see below.", "strong")
    row = _held(page, row + 1, held_rows(report))
    _wishes(page, row + 1, report)
    finish(page, report, top)


def _held(page: Page, row: int, rows: list[list[Any]]) -> int:
    row = page.section(row, "Rows that wait for a correction", len(HELD))
    if not rows:
        return page.para(row, "None: every row of this site was read.")
    end = page.table(row, "survey_held", HELD, rows, "Held rows and their queries")
    page.keep(row - 1, min(end - 1, row + 6))
    return end


def _wishes(page: Page, row: int, report: SiteReport) -> None:
    row = page.section(row, "What was asked for and cannot be, or is to be confirmed", len(HELD))
    open_ = [q for q in report.queries if not q.holds_row]
    if not open_:
        page.para(row, "Nothing: every wish on the survey is met, or none was stated.")
        return
    cols = [
        Col("Post asked for", "bold", 24),
        Col("Query", "text", 24),
        Col("What is wrong", "text", 40),
        Col("What to do", "text", 40),
    ]
    rows = [[q.post_code or "the site", q.code, q.message, q.suggestion or None] for q in open_]
    end = page.table(row, "survey_asked", cols, rows, "Wishes and confirmations")
    page.keep(row - 1, min(end - 1, row + 6))
