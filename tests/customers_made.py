"""Made-up customers' quotations: one site, a dozen, and awkward names; a scenario of our own."""

from __future__ import annotations

import io
from dataclasses import replace
from decimal import Decimal

from books_made import AWKWARD, lines, post, report, setting, small, totals
from PIL import Image, ImageDraw

from pipeline.sheets.customer_lines import totals as sums
from pipeline.sheets.customer_report import Buyer, CustomerReport, CustomerSite, Option, Seller
from pipeline.sheets.customer_site import customer_site

CHOICES = ("least price", "widest board", "most heights", "one board")


def logo() -> bytes:
    """A picture of our own drawing."""
    made = io.BytesIO()
    picture = Image.new("RGB", (400, 120), "white")
    pen = ImageDraw.Draw(picture)
    pen.rectangle((10, 20, 40, 118), fill="#1F4B57")
    pen.rectangle((40, 20, 150, 90), outline="#1F4B57", width=6)
    pen.ellipse((150, 74, 230, 92), outline="#C2410C", width=6)
    picture.save(made, "PNG", dpi=(192, 192))
    return made.getvalue()


SELLER = Seller(
    name="Harrow Court Supply", address="14 Mill Lane\nEastbrook 40110", contact="R. Quill", phone="555-0142",
    email="quotes@harrowcourt.example", tax_number="HC-4471", logo=logo(), payment_terms="30 days net",
    delivery_terms="to the site, unloading by the customer", lead_time="4 to 6 weeks from order",
    warranty="2 years on steel parts",
    acceptance="We accept this quotation and order what it lists.", closing="Thank you for asking us.",
)  # fmt: skip
BUYER = Buyer(
    "Alder Valley Schools", "Facilities office, J. Marsh", "2 Orchard Road\nAlder Valley 40112", "each site, gate office"
)


def site(index: int, posts: int = 4, feet: bool = True) -> CustomerSite:
    """A site with some posts of its own height."""
    made = tuple(replace(p, height=p.height - 0.02 * index) for p in (post(str(n)) for n in range(1, posts + 1)))
    goods = lines(posts)
    one = report(made, site_code=f"AV-{index:02d}", site_name=f"Ground {index} of Alder Valley", lines=goods,
                 totals=totals(goods), feet=feet, state=("ready", "to_confirm")[index % 2])  # fmt: skip
    return customer_site(one, setting().items)


def customer(sites: tuple[CustomerSite, ...], **over: object) -> CustomerReport:
    """A customer with these sites."""
    now = sums(sites)
    options = tuple(
        Option(c, not i, 7, now["net"] + 100 * i, now["freight"], now["tax"], now["total"] + 100 * i,
               () if not i else ("board 4 in wider at 5 posts",))
        for i, c in enumerate(CHOICES)
    )  # fmt: skip
    fields: dict = {
        "number": "ALDER-VALLEY-r1", "seller": SELLER, "buyer": BUYER, "date": "2026-11-25", "valid_until": "2026-12-25",
        "currency": "USD", "tax_rate": Decimal("0.0725"), "tax_exempt": False, "order_together": True, "sites": sites,
        "options": options, "feet": True, "paper": "Letter", "program": "postquote 0.1.0",
    }  # fmt: skip
    return CustomerReport(**{**fields, **over})


def one() -> CustomerReport:
    """One site with all that can be open."""
    return customer((customer_site(small(), setting().items),), order_together=False)


def dozen() -> CustomerReport:
    """Twelve sites, in metric, on A4."""
    return customer(tuple(site(i, feet=False) for i in range(1, 13)), feet=False, paper="A4")


def strange() -> CustomerReport:
    """Names that try to be formulas; no seller, no options."""
    return customer((site(1),), seller=Seller(), buyer=Buyer(AWKWARD), options=())
