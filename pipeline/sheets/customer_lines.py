"""The lines of a customer's quotation: those of its sites, grouped by item and unit price. Pure sums in Decimal."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from decimal import Decimal

from pipeline.money.amounts import QuoteLine
from pipeline.sheets.customer_report import CustomerSite
from schemas.order import natural

MONEY = ("net", "freight", "tax", "total")


def grouped(sites: Iterable[CustomerSite], kind: str) -> list[QuoteLine]:
    """Lines of one kind over all sites; a line's total is the sum of its sites' line totals. Source: design section 8."""
    found: dict[tuple[str, Decimal, Decimal], QuoteLine] = {}
    for line in (line for site in sites for line in site.lines if line.kind == kind):
        key = (line.item, line.unit_price, line.discount_percent)
        before = found.get(key)
        found[key] = line if before is None else _sum(before, line)
    return [found[key] for key in sorted(found, key=lambda key: (natural(key[0]), *key[1:]))]


def _sum(a: QuoteLine, b: QuoteLine) -> QuoteLine:
    return replace(a, quantity=a.quantity + b.quantity, line_total=a.line_total + b.line_total)


def totals(sites: Sequence[CustomerSite]) -> dict[str, Decimal]:
    """Sums of the sites' net, freight, tax and total."""
    return {name: sum((getattr(site, name) for site in sites), Decimal(0)) for name in MONEY}
