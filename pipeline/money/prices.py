"""Unit prices, discounts, freight and rounding: Decimal throughout."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from decimal import ROUND_HALF_UP, Context, Decimal
from typing import Any

from schemas.lengths import SLACK
from schemas.order import folded

Row = Mapping[str, Any]

EXACT = Context(prec=60)
"""Precision at which a product of price, quantity and discount is exact before it is rounded once."""


MINOR_UNITS: dict[str, int] = {
    **dict.fromkeys(
        ("BIF", "CLP", "DJF", "GNF", "ISK", "JPY", "KMF", "KRW", "PYG", "RWF", "UGX", "UYI", "VND", "VUV", "XAF", "XOF", "XPF"),
        0,
    ),
    **dict.fromkeys(("BHD", "IQD", "JOD", "KWD", "LYD", "OMR", "TND"), 3),
    **dict.fromkeys(("CLF", "UYW"), 4),
}
"""Decimal places of currencies that do not have two. Source: ISO 4217, list one, minor unit (memory)."""


def minor_unit(currency: str) -> Decimal:
    """The smallest amount of the currency: 0.01 of USD, 1 of JPY, 0.001 of KWD."""
    return Decimal(1).scaleb(-MINOR_UNITS.get(currency.strip().upper(), 2))


def rounded(amount: Decimal, unit: Decimal) -> Decimal:
    """The amount half-up to a whole number of `unit`s. Source: design section 8."""
    return amount.quantize(unit, rounding=ROUND_HALF_UP, context=EXACT)


def line_total(quantity: int, unit_price: Decimal, discount_percent: Decimal, unit: Decimal) -> Decimal:
    """quantity x unit price x (1 - discount), rounded once. Source: design section 8."""
    kept = EXACT.divide(EXACT.subtract(Decimal(100), discount_percent), Decimal(100))
    return rounded(EXACT.multiply(EXACT.multiply(Decimal(quantity), unit_price), kept), unit)


def broken_price(list_price: Decimal, quantity: int, breaks: Iterable[tuple[int, Decimal]]) -> Decimal:
    """List price, or the price of the greatest `From quantity` that `quantity` reaches. Source: design section 8."""
    reached = [b for b in breaks if b[0] <= quantity]
    return max(reached, key=lambda b: b[0])[1] if reached else list_price


def breaks_by_item(rows: Iterable[Row]) -> dict[str, list[tuple[int, Decimal]]]:
    """Price breaks (from quantity, price) by folded item code."""
    out: dict[str, list[tuple[int, Decimal]]] = {}
    for r in rows:
        out.setdefault(folded(r["item"]), []).append((int(r["from_quantity"]), r["price"]))
    return out


def freight_price(mass: float, rows: Sequence[Row]) -> Decimal:
    """Freight for goods of `mass` [kg]: the first row whose bound is not below it.

    A blank bound takes everything; Decimal 0 where there is no freight table. Source: design section 8.
    """
    bounds = sorted(rows, key=lambda r: (r["mass_most_kg"] is None, r["mass_most_kg"] or 0.0))
    for r in bounds:
        if r["mass_most_kg"] is None or mass <= r["mass_most_kg"] + SLACK:
            return Decimal(r["price"])
    return Decimal(0)
