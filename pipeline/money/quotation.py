"""The quotation of one site: its lines and what they come to."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from pipeline.money.amounts import Counts, QuoteLine, Share, Totals
from pipeline.money.customers import terms
from pipeline.money.prices import (
    EXACT,
    Row,
    breaks_by_item,
    broken_price,
    freight_price,
    line_total,
    minor_unit,
    rounded,
)
from schemas.order import folded, natural

Tables = Mapping[str, Sequence[Row]]

GOODS = (("Mounts", "mount"), ("Boards", "board"), ("Rings", "ring"), ("Extensions", "extension"))
"""Tables of goods and their code columns, in the order of a quotation's lines."""

FREIGHT = "FREIGHT"
"""Item code of the freight line; it is in no table."""


@dataclass(frozen=True)
class PriceList:
    """The catalogue's prices, ready to be asked for many quotations."""

    items: Mapping[str, Row]  # goods by code, in the order of a quotation's lines
    place: Mapping[str, int]  # of each code in that order
    breaks: Mapping[str, Sequence[tuple[int, Decimal]]]  # by folded code
    services: Sequence[Row]  # in natural order of code


def price_list(tables: Tables) -> PriceList:
    """The price list of a catalogue's tables."""
    items: dict[str, Row] = {}
    for table, column in GOODS:
        items |= {row[column]: row for row in sorted(tables.get(table, ()), key=lambda r: natural(r[column]))}
    services = sorted(tables.get("Services", ()), key=lambda r: natural(r["service"]))
    return PriceList(items, {code: n for n, code in enumerate(items)}, breaks_by_item(tables.get("Price breaks", ())), services)


def quote(
    goods: Mapping[str, int],
    counts: Counts,
    tables: Tables,
    policy: Mapping[str, Any],
    customer: str,
    share: Share | None = None,
    prices: PriceList | None = None,
) -> tuple[tuple[QuoteLine, ...], Totals]:
    """Lines and totals of one site.

    `goods` maps an item's code to how many of it the site gets; `counts` are the posts with a kit,
    extensions and stripped posts, each times quantity; `share` is the site's part of its customer's
    order, which need not name every item, None where the site is an order of its own; `prices` is the
    price list of `tables` where it is made already. Goods come first (mounts, boards, rings, extensions),
    then services, then freight, each in natural order of code. Raises KeyError where a code is in no
    table. Source: design section 8, quote.
    """
    unit, known = minor_unit(policy["currency"]), terms(customer, tables.get("Customers", ()))
    prices = prices or price_list(tables)
    items = _items(goods, prices)
    ordered = share.quantities if share else goods
    lines = [*_goods_lines(items, goods, ordered, prices, discount(known), unit), *_service_lines(counts, prices, unit)]
    net = sum((line.line_total for line in lines), Decimal(0).quantize(unit))
    mass = float(sum(row["mass_kg"] * goods[code] for code, row in items))
    freight = Decimal(0).quantize(unit)
    if items and tables.get("Freight"):
        lines.append(_freight_line(mass, tables, unit, share))
        freight = lines[-1].line_total
    rate = Decimal(0) if exempt(known) else tax_rate(policy)
    tax = rounded(EXACT.multiply(rate, net + freight), unit)
    return tuple(lines), Totals(net, freight, rate, tax, net + freight + tax, mass)


def discount(known: Row | None) -> Decimal:
    """The customer's discount on goods [%]; none where the customer is not listed."""
    return Decimal(str((known or {}).get("discount_percent") or 0))


def exempt(known: Row | None) -> bool:
    """Whether the customer pays no tax."""
    return (known or {}).get("tax_exempt") == "yes"


def tax_rate(policy: Mapping[str, Any]) -> Decimal:
    """The policy's tax rate, a fraction."""
    return Decimal(str(policy["tax_rate"]))


def _items(goods: Mapping[str, int], prices: PriceList) -> list[tuple[str, Row]]:
    """Code and row of each of the goods, in the order of the quotation's lines."""
    wanted = {code for code, quantity in goods.items() if quantity}
    missing = sorted(wanted - prices.items.keys())
    if missing:
        raise KeyError(f"no table of the catalogue has {', '.join(missing)}")
    return [(code, prices.items[code]) for code in sorted(wanted, key=prices.place.__getitem__)]


def _goods_lines(
    items: Sequence[tuple[str, Row]],
    goods: Mapping[str, int],
    ordered: Mapping[str, int],
    prices: PriceList,
    percent: Decimal,
    unit: Decimal,
) -> Iterator[QuoteLine]:
    for code, row in items:
        quantity, list_price = int(goods[code]), row["price"]
        price = broken_price(list_price, ordered.get(code, quantity), prices.breaks.get(folded(code), ()))
        total = line_total(quantity, price, percent, unit)
        yield QuoteLine("goods", code, row.get("description") or "", quantity, list_price, price, percent, total)


def _service_lines(counts: Counts, prices: PriceList, unit: Decimal) -> Iterator[QuoteLine]:
    quantities = {
        "per post": counts.posts,
        "per extension": counts.extensions,
        "per stripped post": counts.stripped,
        "per site": 1 if counts.posts else 0,
    }
    for row in prices.services:
        quantity, price = int(quantities[row["charged"]]), row["price"]
        if quantity:
            total = line_total(quantity, price, Decimal(0), unit)
            text = row.get("description") or ""
            yield QuoteLine("service", row["service"], text, quantity, price, price, Decimal(0), total)


def _freight_line(mass: float, tables: Tables, unit: Decimal, share: Share | None) -> QuoteLine:
    price = share.freight if share else freight_price(mass, tables["Freight"])
    text = "Freight, share of the whole order" if share else "Freight"
    return QuoteLine("freight", FREIGHT, text, 1, price, price, Decimal(0), rounded(price, unit))
