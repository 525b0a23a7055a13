"""What was decided over all sites of a customer, as a site's task carries it: plain values, part of what it was made from."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from typing import Any

from pipeline.money.amounts import Share
from pipeline.money.customers import choice_of, terms
from pipeline.rules.arrays import Catalogue
from pipeline.rules.choice import ONE_BOARD, Want


def as_plain(want: Want, share: Share | None, catalogue: Catalogue) -> dict[str, Any]:
    """What a site takes from its customer's other sites, as JSON holds it."""
    plain: dict[str, Any] = {}
    if want.board >= 0:
        plain["one_board"] = [catalogue.boards.code[want.board], catalogue.rings.code[want.ring]]
    if share:
        plain["order"] = {"reached": dict(sorted(share.quantities.items())), "freight": str(share.freight)}
    return plain


def want_of(customer: str, decided: Mapping[str, Any], catalogue: Catalogue) -> Want:
    """What the customer of a site wants, its one board included."""
    choice = choice_of(terms(customer, catalogue.tables.get("Customers", ())))
    pair = decided.get("one_board")
    if choice != ONE_BOARD or not pair:
        return Want(choice)
    return Want(choice, catalogue.boards.code.index(pair[0]), catalogue.rings.code.index(pair[1]))


def share_of(decided: Mapping[str, Any]) -> Share | None:
    """A site's share of its customer's order; None where it is an order of its own."""
    order = decided.get("order")
    return Share(order["reached"], Decimal(order["freight"])) if order else None
