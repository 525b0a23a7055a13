"""The sheet `Quote` of a site: the desk's working paper. Lines and totals here, what stands around them in `notes`."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal
from itertools import groupby
from typing import Any

from pipeline.sheets import show
from pipeline.sheets.line_formula import line_formula, line_total
from pipeline.sheets.notes import Block, blocks
from pipeline.sheets.report import QuoteLine, SiteReport
from pipeline.sheets.wording import KIND, STATE, number, posts_words, state_words
from pipeline.xlsx.page import Book, Page
from pipeline.xlsx.values import As, Formula
from schemas.words import CAUTION_IN_SHORT

HEADINGS = ("Item", "Description", "Quantity", "List price", "Unit price", "Discount [%]", "Line total")
WIDTHS = (20, 40, 10, 12, 12, 11, 15)
_MONEY = (3, 4, 6)
_LAST = len(HEADINGS) - 1
_GAP = 6.0
"""Height of the row between two blocks [pt]."""
_TOGETHER = 12
"""Most sentences in one cell, so that a page can hold it."""
_MANY = 20
"""Lines from which the column headings are repeated on each printed page, and not the quotation's title."""


def facts(report: SiteReport) -> list[tuple[str, Any]]:
    """What stands at the head of the page: label and value."""
    state, look = STATE[report.state]
    return [
        ("Prepared for", report.customer or "not stated on the survey"),
        ("Ground", f"{report.site_name} ({report.site_kind})" if report.site_kind else report.site_name),
        ("Date", report.date),
        ("Valid until", report.valid_until),
        ("Posts", posts_words(report)),
        ("State", As(f"{state}. {state_words(report)}", look)),
    ]


def write_quote(book: Book, report: SiteReport) -> None:
    """Writes the sheet and defines quote_net, quote_freight, quote_tax and quote_total."""
    page = book.page("Quote")
    page.widths = dict(enumerate(WIDTHS))
    look = "title" if len(report.site_name) < 120 else "strong"
    row = page.para(0, f"Quotation {number(report)}: {report.site_name}", look, 0, _LAST)
    for label, value in facts(report):
        page.put(row, 0, label, "label")
        style, words = (value.style, value.value) if isinstance(value, As) else ("para", value)
        row = page.para(row, words, style, 1, _LAST)
    row += 1
    head = row
    row = _lines(book, page, row, report)
    for block in blocks(report):
        page.tall(row, _GAP)
        row = _block(page, row + 1, block)
    page.fit()
    repeat = head if len(report.lines) > _MANY else 0
    page.print_as(repeat, f"{number(report)}  {report.site_name}", landscape=False, header=CAUTION_IN_SHORT)


def _lines(book: Book, page: Page, row: int, report: SiteReport) -> int:
    for column, heading in enumerate(HEADINGS):
        unit = f" [{report.currency}]" if column in _MONEY else ""
        page.put(row, column, heading + unit, "head_right" if column > 1 else "head")
    page.tall(row, 32)
    row += 1
    sums: dict[str, str] = {}
    for kind, title in KIND.items():
        lines = [line for line in report.lines if line.kind == kind]
        row, sums[kind] = _group(book, page, row, title, lines)
    return _totals(book, page, row + 1, report, sums)


def _group(book: Book, page: Page, row: int, title: str, lines: Sequence[QuoteLine]) -> tuple[int, str]:
    """One group of lines and its subtotal; returns the next row and the address of the subtotal.

    A lone line of its group's own name, as freight is, needs neither title nor subtotal.
    """
    if [line.description for line in lines] == [title]:
        _line(page, row, lines[0], book.digits)
        return row + 1, f"G{row + 1}"
    for column in range(_LAST + 1):
        page.put(row, column, title if column == 0 else None, "group")
    page.tall(row, 18)
    first = row + 1
    for row, line in enumerate(lines, first):
        _line(page, row, line, book.digits)
    if not lines:
        row += 1
        for column in range(_LAST + 1):
            page.put(row, column, "None" if column == 0 else None, "quiet")
    row += 1
    amount = sum((line.line_total for line in lines), Decimal(0))
    formula = f"=ROUND(SUM(G{first + 1}:G{row}),{book.digits})"
    _sum(page, row, f"{title} in all", Formula(formula, float(amount)), "sum")
    return row + 1, f"G{row + 1}"


def _line(page: Page, row: int, line: QuoteLine, digits: int) -> None:
    live = line_total(line, digits) == line.line_total
    total: Any = Formula(line_formula(row + 1, digits), float(line.line_total)) if live else line.line_total
    values = (line.item, line.description, line.quantity, line.list_price, line.unit_price, float(line.discount_percent), total)
    looks = ("text", "text", "whole", "money", "money", "rate", "money")
    for column, (value, look) in enumerate(zip(values, looks, strict=True)):
        page.put(row, column, value, look)


def _sum(page: Page, row: int, label: str, amount: Any, style: str) -> None:
    plain = "grand" if style == "grand" else "sub"
    for column in range(_LAST):
        page.put(row, column, label if column == _LAST - 2 else None, plain)
    page.put(row, _LAST, amount, style)
    page.tall(row, 22 if style == "grand" else 18)


def _totals(book: Book, page: Page, row: int, report: SiteReport, sums: dict[str, str]) -> int:
    totals, digits = report.totals, book.digits
    tax_words = "Tax: the customer is exempt" if report.tax_exempt else "Tax on net and freight"
    cells = {name: f"G{row + 1 + index}" for index, name in enumerate(("net", "freight", "tax", "total"))}
    rate = f"F{row + 3}"
    entries = (
        ("net", "Net: goods and services", f"=ROUND({sums['goods']}+{sums['service']},{digits})", totals.net),
        ("freight", "Freight", f"={sums['freight']}", totals.freight),
        ("tax", tax_words, f"=ROUND(ROUND({rate}*({cells['net']}+{cells['freight']}),8),{digits})", totals.tax),
        (
            "total",
            f"Total [{report.currency}]",
            f"=ROUND({cells['net']}+{cells['freight']}+{cells['tax']},{digits})",
            totals.total,
        ),
    )
    for index, (name, label, formula, amount) in enumerate(entries):
        _sum(page, row + index, label, Formula(formula, float(amount)), "grand" if name == "total" else "sum")
        address = cells[name]
        book.workbook.define_name(f"quote_{name}", f"=Quote!${address[0]}${address[1:]}")
    page.put(row + 2, 5, float(totals.tax_rate), "tax_rate")
    mass = show.mass(totals.goods_mass, report.feet)
    return page.para(row + 5, f"Mass of the goods, which the freight goes by: {mass}.", "note", 0, _LAST)


def _block(page: Page, row: int, block: Block) -> int:
    """A titled list of sentences; those with one label share a cell, a line each."""
    first = row
    row = page.section(row, block.title, _LAST + 1)
    for (label, style), entries in groupby(block.entries, key=lambda entry: (entry[0], entry[2])):
        sentences = [sentence for _, sentence, _ in entries]
        for start in range(0, len(sentences), _TOGETHER):
            words = "\n".join(sentences[start : start + _TOGETHER])
            if label:
                page.para(row, label, "label", 0, 0)
            row = page.para(row, words, style, 1 if label else 0, _LAST)
    page.keep(first, row - 1)
    return row
