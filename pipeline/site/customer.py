"""One customer's quotation put together from its sites', what it says as plain values, and what changed since the last."""

from __future__ import annotations

import hashlib
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import asdict, replace
from decimal import Decimal
from typing import Any

from pipeline.money.customers import ordered_together
from pipeline.money.quotation import exempt, tax_rate
from pipeline.sheets.customer_report import Buyer, CustomerReport, CustomerSite, Option, Seller, money_as_text
from pipeline.site import option_words, orders
from pipeline.site.orders import Customer
from pipeline.site.task import Figures, World
from schemas.order import natural

NOT_SAID = frozenset({"number", "date", "valid_until", "program", "changes"})
"""Fields of a report that make no new revision."""


def report_of(
    customer: Customer,
    sites: Sequence[CustomerSite],
    options: Sequence[orders.Option],
    figures: Sequence[Figures],
    world: World,
    logo: bytes,
) -> CustomerReport:
    """The customer's report, but for its number, its dates and what changed; sites and figures in the order of its sites."""
    known, policy = customer.known, world.policy
    no_tax = exempt(known)
    now = options[customer.choice]
    return CustomerReport(
        number="",
        seller=seller(world, logo),
        buyer=_buyer(customer, sites[0]),
        date="",
        valid_until="",
        currency=str(policy["currency"]),
        tax_rate=Decimal(0) if no_tax else tax_rate(policy),
        tax_exempt=no_tax,
        order_together=ordered_together(known),
        sites=tuple(sites),
        options=tuple(_option(o, option_words.changes(o, now, figures, world.catalogue)) for o in options),
        feet=2 * sum(s.feet for s in sites) >= len(sites),
        paper=world.setting.paper,
        program=world.setting.program,
    )


def seller(world: World, logo: bytes) -> Seller:
    """The seller's particulars as the catalogue has them."""
    rows = world.catalogue.tables.get("Seller", ())
    stated = {row["setting"].replace(" ", "_"): row["value"] or "" for row in rows if row["setting"] != "logo"}
    return Seller(**stated, logo=logo)


def _buyer(customer: Customer, first: CustomerSite) -> Buyer:
    """A listed customer's particulars; else its name, or that of the site that names none."""
    row = customer.known
    if row is None:
        return Buyer(customer.name or first.site_name or first.site_code)
    return Buyer(customer.name, **{n: str(row.get(n) or "") for n in ("contact", "address", "ship_to", "payment_terms")})


def _option(o: orders.Option, changes: tuple[str, ...]) -> Option:
    a = o.amounts
    return Option(o.choice, o.in_force, o.posts_with_kit, a.net, a.freight, a.tax, a.total, changes)


def says(report: CustomerReport, sites: Sequence[Mapping[str, Any]]) -> dict[str, Any]:
    """What the quotation says, as JSON holds it, its sites as they are kept: a new revision is made where it differs."""
    fields = {name: value for name, value in asdict(replace(report, sites=())).items() if name not in NOT_SAID}
    logo = fields["seller"].pop("logo")
    plain: dict[str, Any] = money_as_text(fields)
    stated = [
        {k: v for k, v in site.items() if k != "promise"} for site in sites
    ]  # what became of it is no matter of what it says
    return plain | {"sites": stated, "logo": hashlib.sha256(logo).hexdigest() if logo else ""}


def changes(was: Mapping[str, Any], now: Mapping[str, Any]) -> tuple[str, ...]:
    """What changed since the revision before, in words for the customer."""
    return tuple([*_of_sites(was["sites"], now["sites"]), *_of_terms(was, now)] or ["Details of what goes on the posts."])


def _of_sites(was: Sequence[Mapping[str, Any]], now: Sequence[Mapping[str, Any]]) -> Iterator[str]:
    old, new = ({s["site_code"]: s for s in some} for some in (was, now))
    for code in sorted(old.keys() | new.keys(), key=natural):
        if code not in new:
            yield f"{code}: no longer part of this quotation."
        elif code not in old:
            yield f"{code}: new, {new[code]['total']}."
        elif old[code]["total"] != new[code]["total"]:
            yield f"{code}: total {new[code]['total']}, was {old[code]['total']}."
        elif old[code] != new[code]:
            yield f"{code}: details."


_TERMS = {
    "seller": "the seller's particulars", "logo": "the seller's logo", "buyer": "the customer's particulars",
    "currency": "the currency", "tax_rate": "the tax rate", "order_together": "whether all sites are one order",
    "options": "what other choices come to",
}  # fmt: skip


def _of_terms(was: Mapping[str, Any], now: Mapping[str, Any]) -> Iterator[str]:
    """Terms that differ; what other choices come to is not worth a word where the quotation itself has changed."""
    differ = [words for name, words in _TERMS.items() if was.get(name) != now.get(name)]
    if was["sites"] != now["sites"] and _TERMS["options"] in differ:
        differ.remove(_TERMS["options"])
    if differ:
        text = ", ".join(differ)
        yield f"{text[0].upper()}{text[1:]}."
