"""The quotation that is sent: one workbook a customer, over all its sites."""

from __future__ import annotations

from pipeline.sheets import show
from pipeline.sheets.customer_lines import totals
from pipeline.sheets.customer_options import write_confirm, write_options
from pipeline.sheets.customer_posts import write_drawings, write_posts
from pipeline.sheets.customer_quote import write_quote
from pipeline.sheets.customer_report import CustomerReport
from pipeline.xlsx.page import Book


def customer_workbook(report: CustomerReport) -> bytes:
    """The workbook of one customer as .xlsx bytes; the same report gives the same bytes."""
    digits = show.digits(totals(report.sites)["total"]) if report.sites else 2
    title, seller = f"Quotation {report.number}", report.seller.name
    book = Book(title, report.buyer.name, report.date, report.program, digits, report.paper, seller)
    write_quote(book, report)
    write_posts(book, report)
    write_options(book, report)
    write_confirm(book, report)
    write_drawings(book, report)
    return book.bytes()
