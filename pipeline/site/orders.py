"""What depends on all sites of a customer: its one board, its order, and what it would come to under each choice."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

import numpy as np

from pipeline.money.amounts import Counts, Share
from pipeline.money.customers import choice_of, customer_key, ordered_together, terms
from pipeline.money.order import Amounts, Need, amounts, order_shares
from pipeline.money.quotation import PriceList
from pipeline.rules.arrays import Catalogue, Ints
from pipeline.rules.choice import ONE_BOARD, Want
from pipeline.site.figures import kit_items
from pipeline.site.promises import promised_need
from pipeline.site.task import Figures, World
from schemas.catalogue import CHOICES

Row = Mapping[str, Any]


@dataclass(frozen=True)
class Customer:
    """Whom some sites are quoted to: by what it is compared, its name, its row of the catalogue where it is listed."""

    key: str  # of a site that names no customer: its own code
    name: str  # '' where no customer is named
    known: Row | None
    sites: tuple[str, ...]  # folded codes, in the order of the sites

    @property
    def choice(self) -> int:
        """Its choice, an index in CHOICES."""
        return choice_of(self.known)


def customers_of(sites: Iterable[tuple[str, str]], world: World) -> list[Customer]:
    """The customers of sites given as (folded code, customer as stated), in the order of their first sites.

    A listed customer may be stated by any of its names; a site that names none is a customer of its own.
    """
    listed = world.catalogue.tables.get("Customers", ())
    rows: dict[str, Row | None] = {}
    found: dict[str, list[tuple[str, str]]] = defaultdict(list)
    for site, stated in sites:
        typed = customer_key(stated)
        if typed not in rows:
            rows[typed] = terms(stated, listed)
        known = rows[typed]
        key = f"customer {customer_key(known['customer']) if known else typed}" if typed else f"site {site}"
        found[key].append((site, stated))
    return [_customer(key, some, rows[customer_key(some[0][1])]) for key, some in found.items()]


def _customer(key: str, sites: Sequence[tuple[str, str]], known: Row | None) -> Customer:
    name = str(known["customer"]) if known else min(stated for _, stated in sites)
    return Customer(key, " ".join(name.split()), known, tuple(site for site, _ in sites))


def needs_others(stated: str, world: World) -> bool:
    """Whether the quotation of a site of this customer depends on the customer's other sites."""
    known = terms(stated, world.catalogue.tables.get("Customers", ()))
    return ordered_together(known) or choice_of(known) == ONE_BOARD


def one_board(figures: Iterable[Figures], catalogue: Catalogue) -> tuple[int, int]:
    """Board and ring that kits which are not over offer to most posts, as indexes; (-1, -1) where none is offered.

    Ties by the lower sum of least unit prices, then by codes. Source: design section 8, one board.
    """
    posts: Counter[tuple[int, int]] = Counter()
    price: Counter[tuple[int, int]] = Counter()
    for f in figures:
        for board, ring, many, sum_ in (*f["offers"], *_promised_offers(f, catalogue)):
            posts[board, ring] += many
            price[board, ring] += sum_
    boards, rings = catalogue.boards.code, catalogue.rings.code
    return min(posts, key=lambda p: (-posts[p], price[p], boards[p[0]], rings[p[1]]), default=(-1, -1))


def _promised_offers(f: Figures, catalogue: Catalogue) -> Iterator[tuple[int, int, int, int]]:
    """What a promised site counts for: the boards and rings that it was promised, as far as they may still be sold."""
    boards, rings = catalogue.boards.code, catalogue.rings.code
    for board, ring, many, price in f.get("promised", {}).get("pairs", ()):
        if board in boards and ring in rings:
            yield boards.index(board), rings.index(ring), many, int(Decimal(price) / catalogue.price_unit)


def best_kits(f: Figures, choice: int, pair: tuple[int, int], catalogue: Catalogue) -> Ints:
    """The number of each different post's best kit under a choice, -1 without one, (g,)."""
    if choice != ONE_BOARD:
        return np.array(f["best"][choice], dtype=np.int64)
    best = np.array(f["best"][0], dtype=np.int64)
    kits, posts = (np.array(f[name], dtype=np.int64) for name in ("pair_kit", "pair_post"))
    _, board, ring, _ = kit_items(kits, catalogue)
    at = (board == pair[0]) & (ring == pair[1])
    best[posts[at]] = kits[at]
    return best


def need(site: str, f: Figures, kits: Ints, catalogue: Catalogue) -> Need:
    """What a site needs, given each different post's kit; a promised site what it was promised."""
    if "promised" in f:
        return promised_need(site, f["promised"])
    has = kits >= 0
    quantity, stripped = np.array(f["quantity"], dtype=np.int64)[has], np.array(f["stripped"], dtype=bool)[has]
    items = kit_items(kits[has], catalogue)
    goods: dict[str, int] = {}
    codes = (catalogue.mounts.code, catalogue.boards.code, catalogue.rings.code, catalogue.extensions.code)
    for index, code in zip(items, codes, strict=True):
        some = index >= 0
        many = np.bincount(index[some], weights=quantity[some]).astype(np.int64)
        goods |= {code[i]: int(many[i]) for i in np.flatnonzero(many)}
    extended = int(quantity[items[3] >= 0].sum())
    return Need(site, goods, Counts(int(quantity.sum()), extended, int(quantity[stripped].sum())))


def shares(customer: Customer, figures: Mapping[str, Figures], world: World) -> tuple[Want, dict[str, Share]]:
    """What a customer wants, its one board included, and each site's share of its order."""
    catalogue = world.catalogue
    pair = one_board((figures[s] for s in customer.sites), catalogue) if customer.choice == ONE_BOARD else (-1, -1)
    needs = _needs(customer, figures, customer.choice, pair, catalogue)
    return Want(customer.choice, *pair), order_shares(needs, catalogue.tables, world.policy, customer.known)


def _needs(
    customer: Customer, figures: Mapping[str, Figures], choice: int, pair: tuple[int, int], catalogue: Catalogue
) -> list[Need]:
    some = ((site, figures[site]) for site in customer.sites)
    return [need(site, f, best_kits(f, choice, pair, catalogue), catalogue) for site, f in some]


@dataclass(frozen=True)
class Option:
    """What a customer's quotation would come to under one choice, and the kits that it would then have, site by site."""

    choice: str
    in_force: bool
    posts_with_kit: int
    amounts: Amounts
    kits: tuple[Ints, ...]


def options(customer: Customer, figures: Mapping[str, Figures], world: World, prices: PriceList) -> list[Option]:
    """The customer's quotation under each choice, all else equal; `prices` is the catalogue's price list.

    Source: design section 8, options.
    """
    catalogue = world.catalogue
    pair = one_board((figures[s] for s in customer.sites), catalogue)
    made = []
    for number, choice in enumerate(CHOICES):
        kits = tuple(best_kits(figures[s], number, pair, catalogue) for s in customer.sites)
        needs = [need(s, figures[s], k, catalogue) for s, k in zip(customer.sites, kits, strict=True)]
        come_to = amounts(needs, catalogue.tables, world.policy, customer.name, customer.known, prices)
        posts = sum(n.counts.posts for n in needs)
        made.append(Option(choice, number == customer.choice, posts, come_to, kits))
    return made
