"""The site workbook, whole: eight sheets, and the drawings after them."""

from __future__ import annotations

from pipeline.books import show
from pipeline.books.basis import stencil, write_basis
from pipeline.books.drawings import places, write_drawings
from pipeline.books.extensions import write_extensions
from pipeline.books.kits import write_kits
from pipeline.books.loads import write_loads
from pipeline.books.model import Setting, SiteReport
from pipeline.books.page import Book
from pipeline.books.posts import write_posts
from pipeline.books.quote import write_quote
from pipeline.books.shortfalls import write_shortfalls
from pipeline.books.survey import write_survey
from pipeline.books.wording import number


def site_workbook(report: SiteReport, setting: Setting) -> bytes:
    """The workbook of one site as .xlsx bytes; the same report and setting give the same bytes."""
    title = f"Quotation {number(report)}"
    digits = show.digits(report.totals.total)
    book = Book(title, report.site_name, report.date, setting.program, digits, stencil(setting, digits))
    write_quote(book, report)
    write_posts(book, report, setting, places(report))
    write_kits(book, report, setting)
    write_shortfalls(book, report, setting)
    write_extensions(book, report, setting)
    write_loads(book, report, setting)
    write_survey(book, report, setting)
    write_basis(book, report, setting)
    write_drawings(book, report, setting)
    return book.bytes()
