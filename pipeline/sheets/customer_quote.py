"""The sheet `Quote` of a customer's quotation: what a careful office sends, and what is signed."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal
from typing import Any

from pipeline.money.amounts import QuoteLine
from pipeline.sheets import show
from pipeline.sheets.customer_lines import grouped, totals
from pipeline.sheets.customer_places import by_sentence
from pipeline.sheets.customer_report import CustomerReport, CustomerSite
from pipeline.sheets.line_formula import line_formula, line_total
from pipeline.sheets.wording import STATE
from pipeline.xlsx.page import Book, Page
from pipeline.xlsx.values import Formula
from schemas.words import CAUTION, CAUTION_IN_SHORT

WIDTHS = (24, 36, 10, 14, 12, 12, 16)
_LAST = len(WIDTHS) - 1
_LOGO = (230, 74)
"""Most room for a logo [pixels]."""
_TERMS = (
    ("payment_terms", "Payment"),
    ("delivery_terms", "Delivery"),
    ("lead_time", "Lead time"),
    ("warranty", "Warranty"),
)
WANTING = "The seller's particulars are wanting: the catalogue does not state them."
ONLY = "Nothing but the goods and services listed above is included."
_TO_SIGN = ("Signature", "Name", "Date", "Order number")


def write_quote(book: Book, report: CustomerReport) -> None:
    """Writes the sheet and defines quote_net, quote_freight, quote_tax and quote_total."""
    page = book.page("Quote")
    page.widths = dict(enumerate(WIDTHS))
    row = _head(page, report)
    row, sums = _sites(page, row + 1, report)
    row, groups = _goods(book, page, row + 1, report)
    row = _totals(book, page, row, report, sums, groups)
    for title, entries in _blocks(report):
        row = _block(page, row + 1, title, entries)
    _acceptance(page, row + 1, report)
    page.fit()
    page.print_as(0, f"{report.number}  {report.buyer.name}", landscape=False, header=CAUTION_IN_SHORT)


def _head(page: Page, report: CustomerReport) -> int:
    """Letterhead, number and dates, who is quoted to, terms."""
    seller, buyer = report.seller, report.buyer
    page.para(0, seller.name or WANTING, "title" if seller.name else "caution", 0, 3)
    if seller.logo:
        page.picture(0, 4, seller.logo, f"Logo of {seller.name}", *_LOGO)
    address = "\n".join(filter(None, (seller.address, _of(seller, "contact", "phone", "email", "tax_number"))))
    row = page.para(1, address, "note", 0, 3) + 1 if address else 2
    row = page.para(row, f"Quotation {report.number}", "title", 0, _LAST)
    facts = [
        ("To", "\n".join(filter(None, (buyer.name, buyer.contact, buyer.address)))),
        ("Ship to", buyer.ship_to),
        ("Date", report.date),
        ("Valid until", report.valid_until),
        *((label, _term(report, name)) for name, label in _TERMS),
        ("Covers", _covers(report)),
        ("Changed since the last", "\n".join(report.changes)),
    ]
    for label, words in facts:
        if words:
            page.para(row, label, "label", 0, 0)
            row = page.para(row, words, "para", 1, _LAST)
    return row


def _of(seller: Any, *names: str) -> str:
    labels = {"tax_number": "tax number "}
    return ", ".join(f"{labels.get(name, '')}{getattr(seller, name)}" for name in names if getattr(seller, name))


def _term(report: CustomerReport, name: str) -> str:
    """A term: the buyer's own goes before the seller's."""
    return str(getattr(report.buyer, name, "") or getattr(report.seller, name))


def _covers(report: CustomerReport) -> str:
    """How much the quotation covers, and whether its prices stand by themselves."""
    sites = report.sites
    posts, served = sum(s.posts for s in sites), sum(s.posts_with_kit for s in sites)
    words = f"{show.counted(len(sites), 'site')}, {show.counted(posts, 'post')}, {served:,} of them with a kit."
    return f"{words} The prices hold for the whole order." if report.order_together else words


def _heading(page: Page, row: int, words: Sequence[str]) -> int:
    for column, heading in enumerate(words):
        page.put(row, column, heading, "head_right" if column > 1 else "head")
    page.tall(row, 32)
    return row + 1


def _sites(page: Page, row: int, report: CustomerReport) -> tuple[int, dict[str, str]]:
    """Sites with their totals; returns the next row and where the sums of each kind of money stand."""
    money = [f"{name} [{report.currency}]" for name in ("Net", "Freight", "Tax", "Total")]
    row = _heading(page, row, ["Site", "Name and state", "Posts with a kit", *money])
    first = row + 1
    digits = page.book.digits
    for site in report.sites:
        _site(page, row, site, digits)
        row += 1
    sums = {}
    for column, (name, amount) in enumerate(totals(report.sites).items(), 3):
        letter = "ABCDEFG"[column]
        page.put(row, column, Formula(f"=ROUND(SUM({letter}{first}:{letter}{row}),{digits})", float(amount)), "sum")
        sums[name] = f"{letter}{row + 1}"
    for column in range(3):
        page.put(row, column, "All sites" if column == 0 else None, "group")
    return row + 1, sums


def _site(page: Page, row: int, site: CustomerSite, digits: int) -> None:
    state, look = STATE[site.state]
    page.put(row, 0, site.site_code, "bold")
    page.put(row, 1, f"{site.site_name} ({state.lower()})", look)
    page.put(row, 2, f"{site.posts_with_kit} of {site.posts}", "right")
    for column, name in enumerate(("net", "freight", "tax"), 3):
        page.put(row, column, getattr(site, name), "money")
    total = Formula(f"=ROUND(SUM(D{row + 1}:F{row + 1}),{digits})", float(site.total))
    page.put(row, 6, total, "money_bold")
    page.wrapped(row, 0, site.site_code, "bold")
    page.wrapped(row, 1, f"{site.site_name} ({state.lower()})")


def _goods(book: Book, page: Page, row: int, report: CustomerReport) -> tuple[int, dict[str, str]]:
    """Goods and services of all sites, grouped by item and unit price; returns where their sums stand."""
    money = f"[{report.currency}]"
    words = ["Item", "Description", "Quantity", f"Unit price {money}", "Discount [%]", "", f"Line total {money}"]
    row = _heading(page, row, words)
    sums = {}
    for kind, title in (("goods", "Goods"), ("service", "Services")):
        lines = grouped(report.sites, kind)
        first = row + 1
        for line in lines:
            _line(page, row, line, book.digits)
            row += 1
        amount = sum((line.line_total for line in lines), Decimal(0))
        result: Any = Formula(f"=ROUND(SUM(G{first}:G{row}),{book.digits})", float(amount)) if lines else amount
        for column in range(_LAST):
            page.put(row, column, f"{title} in all" if column == 0 else None, "group")
        page.put(row, _LAST, result, "sum")
        sums[kind] = f"G{row + 1}"
        row += 1
    return row, sums


def _line(page: Page, row: int, line: QuoteLine, digits: int) -> None:
    """One line; its total is live where quantity and price give it, which a sum of rounded sites need not."""
    live = line_total(line, digits) == line.line_total
    total: Any = Formula(line_formula(row + 1, digits, "C", "D", "E"), float(line.line_total)) if live else line.line_total
    values = (line.item, line.description, line.quantity, line.unit_price, float(line.discount_percent), None, total)
    looks = ("text", "text", "whole", "money", "rate", "text", "money")
    for column, (value, look) in enumerate(zip(values, looks, strict=True)):
        page.put(row, column, value, look)
    page.wrapped(row, 1, line.description)


def _totals(book: Book, page: Page, row: int, report: CustomerReport, sites: dict[str, str], sums: dict[str, str]) -> int:
    """Net from the lines, freight and tax from the sites; the total."""
    amounts = totals(report.sites)
    cells = {name: f"G{row + 1 + index}" for index, name in enumerate(amounts)}
    rate = f"{report.tax_rate * 100:f}".rstrip("0").rstrip(".")
    tax = "Tax: the customer is exempt" if report.tax_exempt else f"Tax at {rate or '0'} % on net and freight, site by site"
    digits = book.digits
    entries = {
        "net": ("Net: goods and services", f"=ROUND({sums['goods']}+{sums['service']},{digits})"),
        "freight": ("Freight", f"={sites['freight']}"),
        "tax": (tax, f"={sites['tax']}"),
        "total": (f"Total [{report.currency}]", f"=ROUND({cells['net']}+{cells['freight']}+{cells['tax']},{digits})"),
    }
    for index, (name, (label, formula)) in enumerate(entries.items()):
        plain, look = ("grand", "grand") if name == "total" else ("sub", "sum")
        for column in range(_LAST):
            page.put(row + index, column, label if column == _LAST - 2 else None, plain)
        page.put(row + index, _LAST, Formula(formula, float(amounts[name])), look)
        page.tall(row + index, 22 if name == "total" else 18)
        address = cells[name]
        book.workbook.define_name(f"quote_{name}", f"=Quote!${address[0]}${address[1:]}")
    return row + len(entries)


Entry = tuple[str, str, str]
"""Label ('' none), sentence, style."""


def _blocks(report: CustomerReport) -> list[tuple[str, list[Entry]]]:
    out = [(label, words, "para") for label, words in by_sentence(report.sites, lambda site: site.left_out)]
    return [
        ("Not included", [*out, ("", ONLY, "para")]),
        ("To be confirmed before ordering", [("", words, "para") for words in _open(report)]),
        ("Caution", [("", CAUTION, "caution")]),
    ]


def _open(report: CustomerReport) -> list[str]:
    """What is open over all sites, fit and strength apart."""
    fit, strength, held = (
        sum(getattr(s, name) for s in report.sites) for name in ("posts_to_confirm", "posts_strength_open", "rows_held")
    )
    points = []
    if held:
        points.append(f"{show.counted(held, 'row')} of the survey must be corrected first; 'Not included' says how.")
    if fit:
        points.append(
            f"The fit at {show.counted(fit, 'post')} must be confirmed on site: the sheet To confirm says what and by whom."
        )
    if strength:
        points.append(
            f"Strength or footing at {show.counted(strength, 'post')} must be looked at by a licensed engineer before anything "
            "is ordered or mounted: the sheet To confirm says where."
        )
    return points or ["The survey leaves nothing open. The checks on site on the sheet To confirm still stand."]


def _block(page: Page, row: int, title: str, entries: Sequence[Entry]) -> int:
    first = row
    row = page.section(row, title, _LAST + 1)
    for label, sentence, style in entries:
        if label:
            page.para(row, label, "label", 0, 0)
        row = page.para(row, sentence, style, 1 if label else 0, _LAST)
    page.keep(first, row - 1)
    return row


def _acceptance(page: Page, row: int, report: CustomerReport) -> None:
    """Room for signature, name, date and order number."""
    first = row
    row = page.section(row, "Acceptance", _LAST + 1)
    words = report.seller.acceptance or f"We order as quoted in {report.number}."
    row = page.para(row, words, "para", 0, _LAST)
    for label in _TO_SIGN:
        page.put(row, 0, label, "label")
        page.para(row, "", "sign", 1, 3)
        page.tall(row, 30)
        row += 1
    if report.seller.closing:
        row = page.para(row, report.seller.closing, "para", 0, _LAST)
    page.keep(first, row - 1)
