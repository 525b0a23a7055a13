"""Why a quotation changed: what it rests on now against what it rested on before, in words."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from pipeline.books.model import Change
from pipeline.quote.world import Before, World
from schemas.order import folded, natural
from schemas.survey import SURVEY

Facts = Mapping[str, Any]


def reasons(before: Before, now: Facts, world: World, active: frozenset[str]) -> tuple[Change, ...]:
    """The reasons for a new revision, in a fixed order; never empty.

    `now` is the content of quote.content; `active` are the folded codes of the catalogue's active items.
    """
    was, is_ = before.content["rests_on"], now["rests_on"]
    was_active = world.codes_was.get(before.catalogue, frozenset())
    found = [
        *_rows(was, is_),
        *_items(was, is_, active, was_active),
        *_values("price", was["prices"], is_["prices"]),
        *_geometry(was["items"], is_["items"]),
        *_lists("price break", _breaks(was), _breaks(is_)),
        *_pairings(was, is_),
        *_values("customer terms", was["customer"], is_["customer"]),
        *_values("policy", was["policy"], is_["policy"]),
        *_freight(before.content["says"], now["says"]),
    ]
    if not found and before.program != world.setting.program:
        found = [Change("program", "postquote", before.program, world.setting.program)]
    if not found:
        found = [*_kits(before.content["says"], now["says"])]
    return tuple(found or [Change("other", "", "", "")])


def renewed(before: Before, date: str) -> tuple[Change, ...]:
    """The reason for a quotation that was issued anew because the old one had expired."""
    return (Change("renewed", "valid until", before.valid_until, date),)


def _rows(was: Facts, now: Facts) -> Iterator[Change]:
    """Survey rows that were added, removed or changed, and which cell."""
    for post in sorted({*was["rows"], *now["rows"]}, key=natural):
        old, new = was["rows"].get(post), now["rows"].get(post)
        if old is None:
            yield Change("survey row added", post, "", "added")
        elif new is None:
            yield Change("survey row removed", post, "there", "")
        else:
            yield from _cells(post, old, new)


def _cells(post: str, old: Facts, new: Facts) -> Iterator[Change]:
    for column in SURVEY.columns:
        a, b = old.get(column.name, ""), new.get(column.name, "")
        if a != b and column.name != "notes":
            yield Change("survey cell", f"{post}: {column.heading}", a, b)


def _items(was: Facts, now: Facts, active: frozenset[str], was_active: frozenset[str]) -> Iterator[Change]:
    """Items that were withdrawn, and items that are new and now better."""
    for code in sorted({*was["items"], *now["items"]}, key=natural):
        if folded(code) not in active:
            yield Change("item withdrawn", code, "active", "withdrawn or no longer listed")
        elif code not in was["items"] and was_active and folded(code) not in was_active:
            yield Change("item new and now better", code, "", "active")


def _values(kind: str, was: Facts, now: Facts) -> Iterator[Change]:
    """Named values on both sides that differ."""
    for name in sorted({*was, *now}, key=natural):
        if name in was and name in now and was[name] != now[name]:
            yield Change(kind, name, str(was[name]), str(now[name]))


def _geometry(was: Facts, now: Facts) -> Iterator[Change]:
    """Facts of items used before and now: sizes, masses, heights, descriptions."""
    for code in sorted({*was} & {*now}, key=natural):
        for name in sorted(was[code]):
            a, b = was[code][name], now[code].get(name)
            if a != b:
                yield Change("item geometry", f"{code}: {name}", _text(a), _text(b))


def _breaks(side: Facts) -> dict[str, str]:
    return {f"{item} from {quantity}": price for item, quantity, price in side["breaks"]}


def _lists(kind: str, was: Mapping[str, str], now: Mapping[str, str]) -> Iterator[Change]:
    for name in sorted({*was, *now}, key=natural):
        if was.get(name) != now.get(name):
            yield Change(kind, name, was.get(name, ""), now.get(name, ""))


def _pairings(was: Facts, now: Facts) -> Iterator[Change]:
    """Pairings of mounts used before and now that came or went."""
    both = {*was["items"]} & {*now["items"]}
    old, new = (frozenset(p for p in side["pairings"] if p.split(" + ")[0] in both) for side in (was, now))
    for pair in sorted(old ^ new, key=natural):
        yield Change("pairing", pair, "listed" if pair in old else "", "listed" if pair in new else "")


def _freight(was: Facts, now: Facts) -> Iterator[Change]:
    """A freight charge that differs though nothing else on the lines does."""
    old, new = ([x for x in side["lines"] if x[0] != "freight"] for side in (was, now))
    if old == new and was["money"][2] != now["money"][2]:
        yield Change("freight", "freight table", was["money"][2], now["money"][2])


def _kits(was: Facts, now: Facts) -> Iterator[Change]:
    """Where nothing behind it tells why: what differs in what is recommended."""
    for post in sorted({*was["posts"], *now["posts"]}, key=natural):
        a, b = was["posts"].get(post, {}), now["posts"].get(post, {})
        if a.get("kit") != b.get("kit"):
            yield Change("kit", post, " + ".join(filter(None, a.get("kit", []))), " + ".join(filter(None, b.get("kit", []))))


def _text(value: Any) -> str:
    return "" if value is None else str(value)
