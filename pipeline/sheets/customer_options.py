"""The sheets `Options` and `To confirm` of a customer's quotation."""

from __future__ import annotations

from typing import Any

from pipeline.sheets.customer_lines import MONEY
from pipeline.sheets.customer_places import by_sentence
from pipeline.sheets.customer_report import CustomerReport
from pipeline.xlsx.page import Book
from pipeline.xlsx.values import As, Col
from schemas.words import CAUTION, CAUTION_IN_SHORT, ON_SITE_CHECKS

IN_WORDS = {
    "least price": "Least price: of what fits, the least dear for each post",
    "widest board": "Widest board: the widest board that fits each post",
    "most heights": "Most heights: the greatest range of ring heights",
    "one board": "One board: the same board and ring wherever it fits",
}
CONFIRM = [
    Col("Site", "bold", 20),
    Col("Where", "text", 24, 14),
    Col("What to confirm", "text", 30, 20),
    Col("Why", "text", 60, 40),
    Col("By whom", "text", 34, 22),
    Col("Done, by, on", "text", 24, 24),
]


def option_columns(currency: str) -> list[Col]:
    """Headings of the options."""
    money = [Col(f"{name.capitalize()} [{currency}]", "money", 18, 14) for name in MONEY]
    return [
        Col("Choice", "text", 40, 30),
        Col("This quotation", "text", 14),
        Col("Posts with a kit", "whole"),
        *money,
        Col(f"Against this quotation [{currency}]", "more", 18, 14),
        Col("What it changes", "text", 50, 34),
    ]


def option_rows(report: CustomerReport) -> list[list[Any]]:
    """What each choice would come to, and what it changes against the one in force."""
    now = next((o.total for o in report.options if o.in_force), None)
    made = []
    for o in report.options:
        look = "bold" if o.in_force else "text"
        changes = "; ".join(o.changes) or ("this is what is quoted" if o.in_force else "nothing")
        more = As("not known", "right") if now is None else o.total - now
        marked = As("quoted here", "bold") if o.in_force else None
        amounts = (getattr(o, name) for name in MONEY)
        made.append([As(IN_WORDS.get(o.choice, o.choice), look), marked, o.posts_with_kit, *amounts, more, changes])
    return made


def write_options(book: Book, report: CustomerReport) -> None:
    """Writes the sheet `Options`."""
    page = book.page("Options")
    page.title("Options: what each choice would come to")
    row = page.para(1, CAUTION, "caution")
    row = page.para(
        row, "All else equal: the same posts, prices, freight and tax. Tell us which you prefer, and we quote it.", "note"
    )
    rows = option_rows(report)
    if rows:
        page.table(row, "options_all", option_columns(report.currency), rows, "What each choice would come to")
    else:
        page.para(row, "There is nothing to choose from: no post has a kit.", "strong")
    page.sheet.freeze_panes(1, 0)
    page.print_as(0, f"{report.number}  {report.buyer.name}", header=CAUTION_IN_SHORT)


def write_confirm(book: Book, report: CustomerReport) -> None:
    """Writes the sheet `To confirm`."""
    page = book.page("To confirm", "#8A3B12")
    page.title("To confirm: before anything is ordered or mounted")
    row = page.para(1, CAUTION, "caution")
    rows = [[s.site_code, n.posts, n.about, n.sentence, n.who, None] for s in report.sites for n in s.confirms]
    if rows:
        row = page.table(row, "to_confirm", CONFIRM, rows, "What must be confirmed, by whom") + 1
    else:
        row = page.para(row, "The survey leaves nothing open about the posts that are quoted.", "strong") + 1
    if notes := [f"{where}: {words}" for where, words in by_sentence(report.sites, lambda site: site.notes)]:
        row = page.section(row, "Taken as usual, since the survey does not say", len(CONFIRM))
        row = page.paras(row, notes) + 1
    row = page.section(row, "To be looked at on site, at every post", len(CONFIRM))
    page.para(row, "\n".join(f"\N{BALLOT BOX} {what}: {say}" for what, say in ON_SITE_CHECKS))
    page.sheet.freeze_panes(1, 0)
    page.print_as(0, f"{report.number}  {report.buyer.name}", header=CAUTION_IN_SHORT)
