"""What the kit costs, and what its items come to on the site's quotation."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from decimal import Decimal
from typing import Any

from pipeline.explaining.case import POST, Case
from pipeline.explaining.layout import heading, item, paragraph
from pipeline.money.prices import EXACT, breaks_by_item, minor_unit, rounded
from schemas.order import folded, natural
from schemas.survey import FITTINGS

GOODS = (("Mounts", "mount"), ("Boards", "board"), ("Rings", "ring"), ("Extensions", "extension"))
KINDS = tuple(kind for _, kind in GOODS)


def price(case: Case) -> Iterator[str]:
    """Each item and service of the kit at list price, and their sum."""
    yield from heading("Price of the kit for one post")
    for what, code, amount in parts(case):
        yield from item(f"{what} {code}" if what in KINDS else f"{code}, {what}", f"{amount} {case.currency}")
    yield from item("Unit price", f"{unit_price(case)} {case.currency}, the sum")
    yield from paragraph("List prices, before breaks and discount; services by the site, freight and tax are left out. "
                         "Source: the catalogue's prices.")  # fmt: skip
    if case.kit == case.recommended:
        yield from _on_the_quotation(case)
    else:
        yield from paragraph("It is not on the quotation, which has the recommended kit.")


def codes(case: Case) -> tuple[str, str, str, str]:
    """Codes of mount, board, ring and extension ('' none) of the kit."""
    k, c, n = case.answer.kits, case.catalogue, case.kit
    return case.mount_code, c.boards.code[int(k.board[n])], c.rings.code[int(k.ring[n])], case.extension_code


def parts(case: Case) -> Iterator[tuple[str, str, Decimal]]:
    """Kind of item or what a service is charged by, code, and list price of everything in the unit price."""
    for (table, column), code in zip(GOODS, codes(case), strict=True):
        if code:
            row = next(r for r in case.left.kept.tables[table] if r[column] == code)
            yield column, code, row["price"]
    stripped = int(case.answer.posts.fittings[POST]) == FITTINGS.index("removable")
    applies = {"per post": True, "per extension": bool(case.extension_code), "per stripped post": stripped}
    for row in sorted(case.left.kept.tables.get("Services", ()), key=lambda r: natural(r["service"])):
        if applies.get(row["charged"]):
            yield row["charged"], row["service"], row["price"]


def unit_price(case: Case) -> Decimal:
    """The kit's price as in data/kits.csv."""
    exact = int(case.answer.kits.price[case.kit]) * case.catalogue.price_unit
    return rounded(exact, minor_unit(case.currency))


def _on_the_quotation(case: Case) -> Iterator[str]:
    """The lines of the quotation that this post has a share in, and the totals."""
    yield from heading(f"On the quotation of site {case.left.says['site'][0]}")
    quantity, mine = case.row.quantity or 1, {code for _, code, _ in parts(case)}
    breaks = breaks_by_item(case.left.kept.tables.get("Price breaks", ()))
    posts = "1 post" if quantity == 1 else f"{quantity} posts"
    reached = case.left.decided.get("order", {}).get("reached")
    whole = "all sites of the customer get, which are one order" if reached else "the whole site gets"
    yield from paragraph(f"This row stands for {posts}. A good's price goes by how many of it {whole}.")
    for line in case.left.says["lines"]:
        if line[0] in ("goods", "service") and line[1] in mine:
            yield from item(f"{line[0]} {line[1]}", _line(line, breaks.get(folded(line[1]), ()), case.currency, reached))
    currency, net, freight, tax, total = case.left.says["money"]
    yield from item("The whole site", f"net {net}, freight {freight}, tax {tax}, total {total} {currency}")
    yield from paragraph("Source: the catalogue's price breaks, the customer's discount (on goods only), half-up to "
                         f"{minor_unit(case.currency)} {case.currency} line by line.")  # fmt: skip


def _line(line: Sequence[Any], breaks: Sequence[tuple[int, Decimal]], currency: str, order: Mapping[str, int] | None) -> str:
    """One line of the quotation: how its price and total come about; `order` is the quantity that the order reaches, by item."""
    kind, item_code, _, quantity, listed, price, percent, total = line
    ordered = (order or {}).get(item_code, quantity)
    reached = max((b for b in breaks if b[0] <= ordered), default=None)
    why = f" (price break from {reached[0]}; list price {listed})" if kind == "goods" and reached else " (list price)"
    kept = EXACT.divide(EXACT.subtract(Decimal(100), Decimal(percent)), Decimal(100))
    exact = EXACT.multiply(EXACT.multiply(Decimal(quantity), Decimal(price)), kept)
    off = f" x (1 - {percent} %)" if Decimal(percent) else ""
    whole = exact == Decimal(total)
    ends = f"{total} {currency}" if whole else f"{plain(exact)} {currency}, rounded to {total} {currency}"
    return f"{quantity} x {price}{why}{off} = {ends}"


def plain(amount: Decimal) -> str:
    """An amount without an exponent and without empty places."""
    text = f"{amount:f}"
    return text.rstrip("0").rstrip(".") if "." in text else text
