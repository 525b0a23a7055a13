"""The site workbook, whole: eight sheets."""

from __future__ import annotations

from pipeline.sheets import show
from pipeline.sheets.basis import write_basis
from pipeline.sheets.extensions_sheet import write_extensions
from pipeline.sheets.loads_sheet import write_loads
from pipeline.sheets.posts_sheet import write_posts
from pipeline.sheets.quote_sheet import write_quote
from pipeline.sheets.report import Setting, SiteReport
from pipeline.sheets.shortfalls import write_shortfalls
from pipeline.sheets.survey_sheet import write_survey
from pipeline.sheets.viable_kits import write_kits
from pipeline.sheets.wording import number
from pipeline.xlsx.page import Book


def site_workbook(report: SiteReport, setting: Setting) -> bytes:
    """The workbook of one site as .xlsx bytes; the same report and setting give the same bytes."""
    digits = show.digits(report.totals.total)
    title = f"Quotation {number(report)}"
    book = Book(title, report.site_name, report.date, setting.program, digits, setting.paper)
    write_quote(book, report)
    write_posts(book, report)
    write_kits(book, report, setting)
    write_shortfalls(book, report, setting)
    write_extensions(book, report, setting)
    write_loads(book, report, setting)
    write_survey(book, report)
    write_basis(book, report, setting)
    return book.bytes()
