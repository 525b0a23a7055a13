"""Quotation of one site, in an order or not: lines, freight, tax, state; design section 8, in Decimal."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal
from typing import Any

from .defaults import MINOR_UNIT
from .fit import SLACK
from .kits import Choice, services_due
from .model import Catalogue, Customer, Post

Chosen = list[tuple[Post, Choice | None]]


@dataclass(frozen=True)
class Line:
    """One line of a quotation."""

    kind: str
    item: str
    quantity: int
    list_price: Decimal
    unit_price: Decimal
    discount: Decimal
    total: Decimal


@dataclass(frozen=True)
class Quote:
    """Lines and totals of one site."""

    lines: tuple[Line, ...]
    net: Decimal
    freight: Decimal
    tax: Decimal
    total: Decimal
    state: str


@dataclass(frozen=True)
class Order:
    """What a site takes from the order that all sites of its customer make."""

    quantities: dict[str, int]  # of each item, over all sites
    freight: Decimal  # the site's share


def minor(amount: Decimal, policy: dict[str, Any]) -> Decimal:
    """Half-up to the currency's minor unit."""
    return amount.quantize(Decimal(1).scaleb(-MINOR_UNIT[policy["currency"]]), ROUND_HALF_UP)


def norm(name: str) -> str:
    """A customer's name without regard to case and spaces."""
    return "".join(name.split()).casefold()


def terms(posts: list[Post], catalogue: Catalogue) -> Customer:
    """Terms of the site's customer."""
    name = next((p.customer for p in posts if p.customer), None)
    for customer in catalogue.customers:
        if name and norm(name) in {norm(n) for n in (customer.name, *customer.names)}:
            return customer
    return Customer("", Decimal(0), False)


def goods(chosen: Chosen) -> dict[str, tuple[int, Any]]:
    """Quantity and item by code, summed over a site's recommended kits."""
    out: dict[str, tuple[int, Any]] = {}
    for post, choice in chosen:
        if choice is None:
            continue
        items = [choice.fit.mount, choice.board, choice.ring]
        if choice.fit.extension:
            items.append(choice.fit.extension)
        for item in items:
            out[item.code] = (out.get(item.code, (0, None))[0] + post.quantity, item)
    return out


def break_price(code: str, list_price: Decimal, quantity: int, catalogue: Catalogue) -> Decimal:
    reached = [(least, price) for item, least, price in catalogue.breaks if item == code and least <= quantity]
    return max(reached)[1] if reached else list_price


def goods_lines(
    chosen: Chosen, customer: Customer, catalogue: Catalogue, policy: dict[str, Any], order: Order | None
) -> list[Line]:
    lines = []
    for code, (quantity, item) in goods(chosen).items():
        unit = break_price(code, item.price, order.quantities[code] if order else quantity, catalogue)
        total = minor(quantity * unit * (1 - customer.discount / 100), policy)
        lines.append(Line("goods", code, quantity, item.price, unit, customer.discount, total))
    return lines


def service_lines(chosen: Chosen, catalogue: Catalogue, policy: dict[str, Any]) -> list[Line]:
    lines = []
    for service in catalogue.services:
        quantity = sum(
            post.quantity for post, choice in chosen if choice and service.charged in services_due(choice.fit, catalogue)
        )
        if service.charged == "per site":
            quantity = int(any(choice for _, choice in chosen))
        if quantity:
            total = minor(quantity * service.price, policy)
            lines.append(Line("service", service.code, quantity, service.price, service.price, Decimal(0), total))
    return lines


def goods_mass(chosen: Chosen) -> float:
    return sum(quantity * item.mass for quantity, item in goods(chosen).values())


def freight_by_mass(mass: float, catalogue: Catalogue) -> Decimal:
    """The first row whose bound is not below the mass."""
    return next(price for bound, price in catalogue.freight if bound is None or bound >= mass - SLACK)


def freight_price(chosen: Chosen, catalogue: Catalogue, order: Order | None) -> Decimal:
    """By the goods' mass, or the site's share; nil without goods."""
    if not goods(chosen):
        return Decimal(0)
    return order.freight if order else freight_by_mass(goods_mass(chosen), catalogue)


def site_state(chosen: Chosen, held: int = 0) -> str:
    if held or any(choice is None for _, choice in chosen):
        return "incomplete"
    doubtful = any(fit_open(choice) or strength_open(choice) for _, choice in chosen if choice)
    return "to_confirm" if doubtful else "ready"


def fit_open(choice: Choice) -> bool:
    """Something about the fit is to be confirmed."""
    return any(code not in ("STRENGTH", "FOOTING") for code in choice.confirm)


def strength_open(choice: Choice) -> bool:
    """An engineer must look at the strength."""
    unsure = choice.load.state != "within" and not choice.settled
    return unsure or "STRENGTH" in choice.confirm or "FOOTING" in choice.confirm


def quote(chosen: Chosen, catalogue: Catalogue, policy: dict[str, Any], order: Order | None = None) -> Quote:
    """Lines and totals of one site."""
    customer = terms([post for post, _ in chosen], catalogue)
    lines = goods_lines(chosen, customer, catalogue, policy, order) + service_lines(chosen, catalogue, policy)
    net = sum((line.total for line in lines), minor(Decimal(0), policy))
    freight = minor(freight_price(chosen, catalogue, order), policy)
    tax = minor(Decimal(0) if customer.exempt else policy["tax_rate"] * (net + freight), policy)
    if goods(chosen):
        lines.append(Line("freight", "", 1, freight, freight, Decimal(0), freight))
    return Quote(tuple(lines), net, freight, tax, net + freight + tax, site_state(chosen))
