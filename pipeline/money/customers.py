"""Who is whom among the customers: names as they are compared, and each customer's row of the catalogue."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from difflib import get_close_matches
from typing import Any

from schemas.catalogue import CHOICES

Row = Mapping[str, Any]


def customer_key(name: str) -> str:
    """A customer's name as it is compared: without regard to case and spaces. Source: contract section 3, Customers."""
    return "".join(name.split()).casefold()


def other_names(row: Row) -> tuple[str, ...]:
    """The other names that a customer goes by, as typed."""
    return tuple(name.strip() for name in str(row.get("also_known_as") or "").split(";") if name.strip())


def terms(customer: str, rows: Iterable[Row]) -> Row | None:
    """The row of the customer that goes by this name; None where it is not listed, or no name is given."""
    wanted = customer_key(customer)
    if not wanted:
        return None
    return next((r for r in rows if wanted in {customer_key(n) for n in (r["customer"], *other_names(r))}), None)


def nearest(customer: str, rows: Iterable[Row]) -> str:
    """The listed name that is nearest to one that is not listed; '' where none is near."""
    names = {customer_key(n): n for r in rows for n in (*other_names(r), r["customer"])}
    near = get_close_matches(customer_key(customer), list(names))
    return names[near[0]] if near else ""


def ordered_together(known: Row | None) -> bool:
    """Whether the customer's sites are one order."""
    return (known or {}).get("order_together") == "yes"


def choice_of(known: Row | None) -> int:
    """The choice of a customer by its row; least price where it is not listed or says nothing."""
    return CHOICES.index(str((known or {}).get("choice") or CHOICES[0]))
