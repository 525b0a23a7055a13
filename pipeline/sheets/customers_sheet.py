"""The portfolio's sheet `Customers`: what each comes to, and what is open there, fit and strength apart."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from decimal import Decimal
from typing import Any

from pipeline.sheets.report import SiteSummary
from pipeline.sheets.wording import STATE
from pipeline.xlsx.page import Book
from pipeline.xlsx.values import As, Col
from schemas.order import natural
from schemas.words import CAUTION, CAUTION_IN_SHORT

_MONEY = ("net", "freight", "tax", "total")
_COUNTS = ("posts", "posts_with_kit", "posts_to_confirm", "posts_strength_open", "rows_held")


def columns(currency: str) -> list[Col]:
    """Headings of the table."""
    heads = ("Posts", "Posts with a kit", "Fit to confirm", "Strength open", "Rows held")
    return [
        Col("Customer", "bold", 34, 24),
        Col("State", "text", 16, 13),
        Col("Sites", "whole"),
        *(Col(head, "whole") for head in heads),
        *(Col(f"{name.capitalize()} [{currency}]", "money", 18) for name in _MONEY),
        Col("Which sites", "text", 50, 30),
    ]


def customer_name(site: Mapping[str, Any]) -> str:
    """Whose a site is, given its row of data/sites.csv: one that names no customer is a customer of its own."""
    return str(site["customer"] or site["site_name"])


def rows(sites: Sequence[SiteSummary]) -> list[list[Any]]:
    """A row a customer, in natural order; a site that names none is a customer of its own. State: the farthest from ready.

    A declined site is in no customer's quotation.
    """
    found: dict[str, list[Mapping[str, Any]]] = {}
    for s in sites:
        if not s.declined:
            found.setdefault(customer_name(s.site), []).append(s.site)
    states = list(STATE)
    made = []
    for name in sorted(found, key=natural):
        here = found[name]
        state = max((str(s["state"]) for s in here), key=states.index)
        counts = (sum(int(s.get(column) or 0) for s in here) for column in _COUNTS)
        money = (sum((Decimal(str(s[column])) for s in here), Decimal(0)) for column in _MONEY)
        codes = ", ".join(str(s["site_code"]) for s in here)
        made.append([name, As(*STATE[state]), len(here), *counts, *money, codes])
    return made


def write_customers(book: Book, sites: Sequence[SiteSummary], currency: str) -> None:
    """Writes the sheet."""
    page = book.page("Customers")
    page.title("Customers: what each comes to, and what is open")
    page.para(1, CAUTION, "caution")
    if sites:
        page.table(2, "customers_all", columns(currency), rows(sites), "Customers, states and totals")
        page.sheet.freeze_panes(3, 1)
    else:
        page.para(2, "No site was quoted in this run.", "strong")
    page.print_as(2 if sites else 0, "Portfolio", header=CAUTION_IN_SHORT)
