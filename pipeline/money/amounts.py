"""What a quotation comes to: plain values, Decimal money."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal


@dataclass(frozen=True)
class QuoteLine:
    """One line of the quotation, as in data/quote_lines.csv."""

    kind: str  # goods, service, freight
    item: str
    description: str
    quantity: int
    list_price: Decimal
    unit_price: Decimal
    discount_percent: Decimal
    line_total: Decimal


@dataclass(frozen=True)
class Totals:
    """Money of one site, rounded to the currency's minor unit."""

    net: Decimal
    freight: Decimal
    tax_rate: Decimal  # a fraction; 0 where the customer is exempt
    tax: Decimal
    total: Decimal
    goods_mass: float  # [kg]


@dataclass(frozen=True)
class Counts:
    """What the services of one site are charged by: posts with a kit, times their quantity."""

    posts: int
    extensions: int
    stripped: int


@dataclass(frozen=True)
class Share:
    """What one site's quotation takes from the order that all sites of its customer make together."""

    quantities: Mapping[str, int]  # of each of its goods, what price breaks go by
    freight: Decimal  # its part of the order's freight
