"""Customers: who is whom, what one board is, what an order shares, what each choice would come to; design section 8."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from .kits import Choice, best_first
from .model import Catalogue, Customer, Post
from .money import Chosen, Order, Quote, freight_by_mass, goods, goods_mass, minor, norm, quote, terms

CHOICES = ("least price", "widest board", "most heights", "one board")
Ranked = dict[tuple[str, str], list[Choice]]
STATES = ("incomplete", "to_confirm", "ready")


@dataclass(frozen=True)
class Group:
    """The sites of one customer, in natural order."""

    name: str  # '' where the site names none
    terms: Customer
    sites: list[list[Post]]


def groups(sites: list[list[Post]], catalogue: Catalogue) -> list[Group]:
    """Sites by customer, in the order of the customers' first sites."""
    found: dict[str, Group] = {}
    for posts in sites:
        stated = next((p.customer for p in posts if p.customer), None) or ""
        known = terms(posts, catalogue)
        key = norm(known.name or stated) or f"site {posts[0].site}"
        found.setdefault(key, Group(known.name or stated, known, [])).sites.append(posts)
    return list(found.values())


def one_board(group: Group, ranked: Ranked) -> tuple[str, str] | None:
    """Board and ring that kits which are not over offer to most posts; ties by the lower sum of least prices, then codes."""
    posts: dict[tuple[str, str], int] = {}
    prices: dict[tuple[str, str], Decimal] = {}
    for post in (p for site in group.sites for p in site):
        least: dict[tuple[str, str], Decimal] = {}
        for kit in ranked[post.site, post.code]:
            pair = (kit.board.code, kit.ring.code)
            if kit.load.state != "over":
                least[pair] = min(least.get(pair, kit.unit_price), kit.unit_price)
        for pair, price in least.items():
            posts[pair] = posts.get(pair, 0) + post.quantity
            prices[pair] = prices.get(pair, Decimal(0)) + price * post.quantity
    return min(posts, key=lambda pair: (-posts[pair], prices[pair], pair)) if posts else None


def chosen(group: Group, ranked: Ranked, choice: str) -> list[Chosen]:
    """The recommended kit of every post of every site under a choice."""
    pair = one_board(group, ranked)
    out = []
    for site in group.sites:
        kits = ((post, best_first(ranked[post.site, post.code], choice, pair)) for post in site)
        out.append([(post, some[0] if some else None) for post, some in kits])
    return out


def shares(masses: list[float], freight: Decimal, policy: dict[str, Any]) -> list[Decimal]:
    """Freight in minor units by largest remainder; sites stand in natural order, in which ties go."""
    unit = minor(Decimal(1), policy) / 1
    smallest = Decimal(1).scaleb(unit.as_tuple().exponent)
    total = sum(masses)
    if not total:
        return [Decimal(0) for _ in masses]
    units = int(freight / smallest)
    exact = [units * mass / total for mass in masses]
    given = [int(e + 1e-9) for e in exact]
    rest = [e - g for e, g in zip(exact, given, strict=True)]
    for _ in range(units - sum(given)):
        best = 0
        for n in range(1, len(rest)):
            if rest[n] > rest[best] + 1e-9:
                best = n
        given[best] += 1
        rest[best] = -1.0
    return [g * smallest for g in given]


def orders(sites: list[Chosen], catalogue: Catalogue, policy: dict[str, Any], known: Customer) -> list[Order | None]:
    """What each site takes from the order, None where sites are not ordered together."""
    if not known.together:
        return [None for _ in sites]
    quantities: dict[str, int] = {}
    for site in sites:
        for code, (quantity, _) in goods(site).items():
            quantities[code] = quantities.get(code, 0) + quantity
    masses = [goods_mass(site) for site in sites]
    freight = minor(freight_by_mass(sum(masses), catalogue), policy) if any(masses) else Decimal(0)
    return [Order(quantities, share) for share in shares(masses, freight, policy)]


def quotes(group: Group, sites: list[Chosen], catalogue: Catalogue, policy: dict[str, Any]) -> list[Quote]:
    """The quotation of each site."""
    shared = orders(sites, catalogue, policy, group.terms)
    return [quote(site, catalogue, policy, order) for site, order in zip(sites, shared, strict=True)]


def amounts(made: list[Quote], policy: dict[str, Any]) -> dict[str, Decimal]:
    """The sum of the sites."""
    zero = minor(Decimal(0), policy)
    return {name: sum((getattr(q, name) for q in made), zero) for name in ("net", "freight", "tax", "total")}


def with_kit(sites: list[Chosen]) -> int:
    return sum(post.quantity for site in sites for post, kit in site if kit)


def customer_row(group: Group, ranked: Ranked, catalogue: Catalogue, policy: dict[str, Any], valid_until: str) -> dict[str, Any]:
    sites = chosen(group, ranked, group.terms.choice)
    made = quotes(group, sites, catalogue, policy)
    return {
        "customer": group.name,
        "revision": 1,
        "state": min((q.state for q in made), key=STATES.index),
        "sites": len(sites),
        "posts": sum(post.quantity for site in group.sites for post in site),
        "posts_with_kit": with_kit(sites),
        "rows_held": 0,
        **amounts(made, policy),
        "valid_until": valid_until,
        "site_code": "" if group.name else group.sites[0][0].site,
    }


def option_rows(group: Group, ranked: Ranked, catalogue: Catalogue, policy: dict[str, Any]) -> list[dict[str, Any]]:
    out = []
    for choice in CHOICES:
        sites = chosen(group, ranked, choice)
        row = {"customer": group.name, "site_code": "" if group.name else group.sites[0][0].site, "choice": choice}
        row |= {"in_force": str(choice == group.terms.choice).lower(), "posts_with_kit": with_kit(sites)}
        out.append(row | amounts(quotes(group, sites, catalogue, policy), policy))
    return out
