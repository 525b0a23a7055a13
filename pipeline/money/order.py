"""An order: the sites of a customer that count together for price breaks and freight, and what each site's share comes to."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from itertools import pairwise
from typing import Any

from pipeline.money.amounts import Counts, Share, Totals
from pipeline.money.customers import ordered_together
from pipeline.money.prices import breaks_by_item, freight_price, minor_unit, rounded
from pipeline.money.quotation import GOODS, PriceList, Row, Tables, price_list, quote
from schemas.order import folded, natural

TIE = Fraction(1, 10**9)
"""Remainders that differ by no more are ties. Source: design section 8, order together."""


@dataclass(frozen=True)
class Need:
    """What one site needs: goods by item code, what its services go by; a promised site keeps what it was promised."""

    site: str
    goods: Mapping[str, int]
    counts: Counts
    kept: Totals | None = None  # what a promised site comes to
    mass: Fraction | None = None  # of a promised site's goods [kg]


def order_shares(needs: Sequence[Need], tables: Tables, policy: Mapping[str, Any], known: Row | None) -> dict[str, Share]:
    """Each site's share of its customer's order; none where the sites are not ordered together.

    `known` is the customer's row. A promised site keeps its freight; the others share what is left of the order's.
    Source: design section 8, order together.
    """
    if not ordered_together(known):
        return {}
    quantities: Counter[str] = Counter()
    for need in needs:
        quantities.update(need.goods)
    unit, masses = minor_unit(policy["currency"]), _masses(needs, tables)
    price = freight_price(float(sum(masses.values())), tables.get("Freight", ()))
    kept = {n.site: n.kept.freight for n in needs if n.kept}
    left = rounded(price, unit) - sum(kept.values())
    split = kept | shared(max(left, Decimal(0)), _without(masses, kept), unit)
    breaks = breaks_by_item(tables.get("Price breaks", ()))
    reached = {code: _reached(quantity, breaks.get(folded(code), ())) for code, quantity in quantities.items()}
    return {n.site: Share({code: reached[code] for code in n.goods}, split.get(n.site, Decimal(0))) for n in needs}


def _reached(quantity: int, breaks: Iterable[tuple[int, Decimal]]) -> int:
    """The `From quantity` that the order reaches, 1 for none: all that a site's prices depend on."""
    return max((start for start, _ in breaks if start <= quantity), default=1)


def _without(masses: Mapping[str, Fraction], kept: Iterable[str]) -> dict[str, Fraction]:
    return {site: m for site, m in masses.items() if site not in set(kept)}


def _masses(needs: Sequence[Need], tables: Tables) -> dict[str, Fraction]:
    """Mass of the goods of each site that has some [kg], exactly what the items' masses add up to, in whatever order."""
    each = {row[column]: Fraction(row["mass_kg"]) for table, column in GOODS for row in tables.get(table, ())}
    return {n.site: _mass(n, each) if n.mass is None else n.mass for n in needs if any(n.goods.values())}


def _mass(need: Need, each: Mapping[str, Fraction]) -> Fraction:
    return sum((each[code] * quantity for code, quantity in need.goods.items()), Fraction(0))


def shared(amount: Decimal, masses: Mapping[str, Fraction], unit: Decimal) -> dict[str, Decimal]:
    """`amount` in whole `unit`s, shared among sites in proportion to mass by largest remainder; the shares' sum is `amount`.

    Remainders within TIE are ties, and go by the natural order of site code. Source: design section 8, order together.
    """
    total = sum(masses.values())
    if not total:
        return {}
    units = int(amount / unit)
    exact = {site: units * m / total for site, m in masses.items()}
    floors = {site: int(e) for site, e in exact.items()}
    left = units - sum(floors.values())
    up = set(_by_remainder({site: e - floors[site] for site, e in exact.items()})[:left])
    return {site: (floors[site] + (site in up)) * unit for site in masses}


def _by_remainder(remainders: Mapping[str, Fraction]) -> list[str]:
    """Sites from the greatest remainder on; those within TIE of the next greater one stand in natural order."""
    falling = sorted(remainders, key=lambda site: (-remainders[site], natural(site)))
    ranks = dict.fromkeys(falling[:1], 0)
    for before, site in pairwise(falling):
        ranks[site] = ranks[before] + (remainders[before] - remainders[site] > TIE)
    return sorted(falling, key=lambda site: (ranks[site], natural(site)))


@dataclass(frozen=True)
class Amounts:
    """What some sites' quotations come to together."""

    net: Decimal
    freight: Decimal
    tax: Decimal
    total: Decimal


def together(sites: Iterable[Totals], unit: Decimal) -> Amounts:
    """The sum of sites' totals, to the minor unit."""
    zero = Decimal(0).quantize(unit)
    net, freight, tax, total = zero, zero, zero, zero
    for t in sites:
        net, freight, tax, total = net + t.net, freight + t.freight, tax + t.tax, total + t.total
    return Amounts(net, freight, tax, total)


def amounts(
    needs: Sequence[Need],
    tables: Tables,
    policy: Mapping[str, Any],
    customer: str,
    known: Row | None,
    prices: PriceList | None = None,
) -> Amounts:
    """What the quotations of all `needs`, the sites of one customer, come to. Source: design section 8, options."""
    shares, prices = order_shares(needs, tables, policy, known), prices or price_list(tables)
    made = (n.kept or quote(n.goods, n.counts, tables, policy, customer, shares.get(n.site), prices)[1] for n in needs)
    return together(made, minor_unit(policy["currency"]))
