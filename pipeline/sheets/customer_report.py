"""What a customer's quotation is made from: plain values, SI, Decimal money, '' or None where nothing is known.

Nothing that is the desk's own (ranking, margins, settings, other customers) has a place here. `CustomerSite` is made from
a site's report (`customer_site`) and is plain enough to be kept as JSON until all sites of a customer are there.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import asdict, dataclass
from decimal import Decimal
from typing import Any

from pipeline.money.amounts import QuoteLine
from pipeline.sheets.assembly import Assembly


@dataclass(frozen=True)
class Seller:
    """Who quotes, as the catalogue's sheet `Seller` has it; what is missing is '' and is left out of the quotation."""

    name: str = ""
    address: str = ""
    contact: str = ""
    phone: str = ""
    email: str = ""
    tax_number: str = ""
    logo: bytes = b""  # a PNG or JPEG
    payment_terms: str = ""
    delivery_terms: str = ""
    lead_time: str = ""
    warranty: str = ""
    acceptance: str = ""
    closing: str = ""


@dataclass(frozen=True)
class Buyer:
    """Who is quoted to, as the catalogue's sheet `Customers` has it; payment terms of its own go before the seller's."""

    name: str
    contact: str = ""
    address: str = ""
    ship_to: str = ""
    payment_terms: str = ""


@dataclass(frozen=True)
class Fitted:
    """What goes on posts of one site that look the same."""

    posts: tuple[str, ...]  # codes
    quantity: int
    assembly: Assembly
    answer: str  # in words: 'Fits', 'Fits if confirmed', ...
    heights: str  # '2 of 2' wanted ring heights served


@dataclass(frozen=True)
class Named:
    """A sentence about posts of one site: what is left out, what must be confirmed and by whom, what is taken as usual."""

    posts: str  # 'Posts 3 and 8', 'Every post', '' the site
    about: str  # 'depth of the footing', '' where the sentence says it
    sentence: str
    who: str = ""


@dataclass(frozen=True)
class CustomerSite:
    """One site in its customer's quotation."""

    site_code: str
    site_name: str
    revision: int
    state: str  # ready, to_confirm, incomplete
    posts: int
    posts_with_kit: int
    posts_to_confirm: int  # fit
    posts_strength_open: int
    rows_held: int
    net: Decimal
    freight: Decimal
    tax: Decimal
    total: Decimal
    goods_mass: float  # [kg]
    lines: tuple[QuoteLine, ...]
    fitted: tuple[Fitted, ...]
    left_out: tuple[Named, ...]
    confirms: tuple[Named, ...]
    notes: tuple[Named, ...]  # what the survey left blank and the quotation rests on
    feet: bool
    promise: str = ""  # sent, accepted; '' none


@dataclass(frozen=True)
class Option:
    """What the whole quotation would come to under one choice, all else equal."""

    choice: str  # least price, widest board, most heights, one board
    in_force: bool
    posts_with_kit: int
    net: Decimal
    freight: Decimal
    tax: Decimal
    total: Decimal
    changes: tuple[str, ...]  # against the one in force, in words; empty for the one in force, or where nothing changes


@dataclass(frozen=True)
class CustomerReport:
    """Everything that one customer's quotation says."""

    number: str  # of the quotation: the workbook's name without its ending, 'ALDER-VALLEY-r1'
    seller: Seller
    buyer: Buyer
    date: str  # ISO
    valid_until: str
    currency: str
    tax_rate: Decimal  # a fraction; 0 where the customer is exempt
    tax_exempt: bool
    order_together: bool
    sites: tuple[CustomerSite, ...]  # natural order of site code
    options: tuple[Option, ...]  # in the order of the choices
    feet: bool
    paper: str  # Letter, A4
    program: str
    changes: tuple[str, ...] = ()  # since the revision before, in words


def as_plain(site: CustomerSite) -> dict[str, Any]:
    """The site as JSON holds it."""
    plain: dict[str, Any] = money_as_text(asdict(site))
    return plain


def money_as_text(value: Any) -> Any:
    """Plain values with each Decimal as text, each tuple as a list: as JSON holds them."""
    if isinstance(value, Decimal):
        return str(value)
    if isinstance(value, dict):
        return {k: money_as_text(v) for k, v in value.items()}
    return [money_as_text(v) for v in value] if isinstance(value, (list, tuple)) else value


def from_plain(plain: Mapping[str, Any]) -> CustomerSite:
    """The inverse of `as_plain` after a trip through JSON."""
    fitted = (Fitted(**{**f, "posts": tuple(f["posts"]), "assembly": Assembly(**f["assembly"])}) for f in plain["fitted"])
    lines: list[dict[str, Any]] = [{k: Decimal(v) if k in _LINE_MONEY else v for k, v in x.items()} for x in plain["lines"]]
    made: dict[str, Any] = {
        **plain,
        **{name: Decimal(plain[name]) for name in ("net", "freight", "tax", "total")},
        **{name: tuple(Named(**n) for n in plain[name]) for name in ("left_out", "confirms", "notes")},
        "lines": tuple(QuoteLine(**x) for x in lines),
        "fitted": tuple(fitted),
    }
    return CustomerSite(**made)


_LINE_MONEY = frozenset({"list_price", "unit_price", "discount_percent", "line_total"})
