"""The portfolio's order lists: the goods of all quotations together, and by customer with their prices."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from decimal import Decimal
from typing import Any, TypeVar

from pipeline.sheets import show
from pipeline.sheets.customers_sheet import customer_name
from pipeline.sheets.report import Setting, SiteSummary
from pipeline.xlsx.page import Book
from pipeline.xlsx.values import Col, Row
from schemas.order import natural
from schemas.words import CAUTION, CAUTION_IN_SHORT

_Key = TypeVar("_Key")
_KINDS = (("Mounts", "mount"), ("Boards", "board"), ("Rings", "ring"), ("Extensions", "extension"))
_WITHOUT: tuple[int, str, Mapping[str, Any]] = (len(_KINDS), "other", {})
"""What is known of an item that the catalogue no longer has."""


@dataclass
class _Ordered:
    """One item's quantity and money, with the sites that take it."""

    total: Decimal = Decimal(0)
    sites: dict[str, int] = field(default_factory=dict)
    customers: set[str] = field(default_factory=set)

    def add(self, site: str, customer: str, line: Mapping[str, Any]) -> None:
        self.total += Decimal(line["line_total"])
        self.sites[site] = self.sites.get(site, 0) + int(line["quantity"])
        self.customers.add(customer)

    @property
    def quantity(self) -> int:
        return sum(self.sites.values())

    @property
    def where(self) -> str:
        return show.listed([f"{site} ({count})" for site, count in self.sites.items()], 40)


class _Items:
    """The catalogue's goods by code: kind, words and the order in which they are listed."""

    def __init__(self, setting: Setting) -> None:
        self._known = {
            code: (place, kind, row)
            for place, (table, kind) in enumerate(_KINDS)
            for code, row in setting.items.get(table, {}).items()
        }

    def order(self, code: str) -> tuple[Any, ...]:
        return self._known.get(code, _WITHOUT)[0], natural(code)

    def named(self, code: str) -> list[str]:
        _, kind, row = self._known.get(code, _WITHOUT)
        return [code, kind, str(row.get("description") or "no description")]


def _ordered(sites: Iterable[SiteSummary], key: Callable[[str, Mapping[str, Any]], _Key]) -> dict[_Key, _Ordered]:
    """The goods of all sites, put together by what `key` makes of the customer and the line."""
    found: dict[_Key, _Ordered] = {}
    for s in sites:
        customer = customer_name(s.site)
        for line in s.goods:
            found.setdefault(key(customer, line), _Ordered()).add(str(s.site["site_code"]), customer, line)
    return found


def item_rows(sites: Sequence[SiteSummary], setting: Setting) -> list[Row]:
    """A row an item: code, kind, description, how many, what they come to, customers, sites, which sites."""
    items, found = _Items(setting), _ordered(sites, lambda _, line: str(line["item"]))
    made = ((code, found[code]) for code in sorted(found, key=items.order))
    return [[*items.named(code), o.quantity, o.total, len(o.customers), len(o.sites), o.where] for code, o in made]


def customer_rows(sites: Sequence[SiteSummary], setting: Setting) -> list[Row]:
    """A row an item and unit price of each customer: who, item, how many, price, discount, line total, sites, which sites."""
    items, found = _Items(setting), _ordered(sites, _priced)
    made: list[Row] = []
    for key in sorted(found, key=lambda key: (natural(key[0]), items.order(key[1]), key[2:])):
        (who, code, price, discount), o = key, found[key]
        made.append([who, *items.named(code), o.quantity, price, float(discount), o.total, len(o.sites), o.where])
    return made


def _priced(customer: str, line: Mapping[str, Any]) -> tuple[str, str, Decimal, Decimal]:
    return customer, str(line["item"]), Decimal(line["unit_price"]), Decimal(line["discount_percent"])


def _item_columns(currency: str) -> list[Col]:
    return [
        Col("Item", "bold", 24),
        Col("Kind", "text", 12),
        Col("Description", "text", 44),
        Col("How many", "whole"),
        Col(f"Come to [{currency}]", "money", 18),
        Col("Customers", "whole"),
        Col("Sites", "whole"),
        Col("Where, and how many there", "text", 60),
    ]


def _customer_columns(currency: str) -> list[Col]:
    return [
        Col("Customer", "bold", 34),
        Col("Item", "bold", 24),
        Col("Kind", "text", 12),
        Col("Description", "text", 44),
        Col("How many", "whole"),
        Col(f"Unit price [{currency}]", "money", 18),
        Col("Discount [%]", "rate"),
        Col(f"Line total [{currency}]", "money", 18),
        Col("Sites", "whole"),
        Col("Where, and how many there", "text", 60),
    ]


def write_order_list(book: Book, sites: Sequence[SiteSummary], setting: Setting, currency: str) -> None:
    """Writes the sheets `Order list` and `Order by customer`."""
    items = item_rows(sites, setting)
    _write(book, "Order list: the goods of all quotations", "order_goods", _item_columns(currency), items)
    priced = customer_rows(sites, setting)
    title = "Order by customer: prices as quoted, after breaks; line totals after discount"
    _write(book, title, "order_customers", _customer_columns(currency), priced)


def _write(book: Book, title: str, name: str, columns: list[Col], rows: list[Row]) -> None:
    sheet, _, words = title.partition(": ")
    page = book.page(sheet, "#1B5432")
    page.title(title)
    if rows:
        page.para(1, CAUTION, "caution")
        page.table(3, name, columns, rows, words.capitalize())
        page.sheet.freeze_panes(4, 1)
    else:
        page.para(2, "There is nothing to order: no site has a kit.", "strong")
    page.print_as(3 if rows else 0, "Portfolio", header=CAUTION_IN_SHORT)
