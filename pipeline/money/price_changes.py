"""Prices of two catalogues side by side: which move, by how much, and which look like a slip of the keyboard."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from pipeline.money.prices import EXACT
from schemas.catalogue import BOARDS, EXTENSIONS, MOUNTS, RINGS, SERVICES
from schemas.order import folded, natural

Tables = Mapping[str, Sequence[Mapping[str, Any]]]

_PRICED = ((MOUNTS, "mount"), (BOARDS, "board"), (RINGS, "ring"), (EXTENSIONS, "extension"), (SERVICES, "service"))
_NEAR_A_POWER = Decimal("1.25")
"""A move within this factor of 10, 100, 0.1 ... is about a power of ten. Source: common practice."""


@dataclass(frozen=True)
class PriceChange:
    """One price that moves; `item` says whose, `code` is the item's own code ('' for freight)."""

    item: str
    code: str
    was: Decimal
    now: Decimal
    slip: bool
    power: int  # of ten, about which the price moves; 0 = none

    @property
    def sentence(self) -> str:
        """The move in words."""
        about = f", about {Decimal(10) ** abs(self.power):f} times {'more' if self.power > 0 else 'less'}" if self.power else ""
        return f"The price of {self.item} goes from {self.was} to {self.now}{about}" + (": is that meant?" if self.slip else ".")


def price_changes(before: Tables, after: Tables, price_slip: Decimal) -> tuple[PriceChange, ...]:
    """Every price that stands in both catalogues and moves, in natural order of item.

    A move of more than the fraction `price_slip` of the old price is a possible slip, and so is any move from
    or to nothing. Source: design section 14.
    """
    old, new = _prices(before), _prices(after)
    moved = (key for key in old.keys() & new.keys() if old[key][2] != new[key][2])
    return tuple(_change(*new[key][:2], old[key][2], new[key][2], price_slip) for key in sorted(moved, key=natural_key))


def slips(before: Tables, after: Tables, policy: Mapping[str, Any]) -> tuple[str, ...]:
    """What may be a slip among the prices that move, a sentence each."""
    changes = price_changes(before, after, Decimal(str(policy["price_slip"])))
    return tuple(change.sentence for change in changes if change.slip)


def natural_key(key: tuple[str, str]) -> tuple[Any, ...]:
    """Key of the natural order of items; those of one kind together."""
    return tuple(natural(part) for part in key)


def _change(item: str, code: str, was: Decimal, now: Decimal, price_slip: Decimal) -> PriceChange:
    slip = abs(now - was) > EXACT.multiply(price_slip, was)
    return PriceChange(item, code, was, now, slip, _power(was, now))


def _power(was: Decimal, now: Decimal) -> int:
    """The power of ten that the price moves by, within a quarter; 0 where there is none."""
    if not was or not now:
        return 0
    ratio = EXACT.divide(now, was)
    power = int(ratio.log10(EXACT).to_integral_value())
    ten = Decimal(10) ** power
    return power if ten / _NEAR_A_POWER <= ratio <= ten * _NEAR_A_POWER else 0


def _prices(tables: Tables) -> dict[tuple[str, str], tuple[str, str, Decimal]]:
    """(kind, folded item) -> how the item is called, its code, its price; active and withdrawn ones."""
    found: dict[tuple[str, str], tuple[str, str, Decimal]] = {}
    for kind, code, row in _rows(tables):
        found[kind, folded(code)] = (code, code, row["price"])
    for row in tables.get("Price breaks", ()):
        name = f"{row['item']} from {row['from_quantity']} pieces"
        found["price break", folded(name)] = (name, str(row["item"]), row["price"])
    for row in tables.get("Freight", ()):
        most = row.get("mass_most_kg")
        name = "freight above the last bound" if most is None else f"freight up to {most:.6g} kg"
        found["freight", name] = (name, "", row["price"])
    return found


def _rows(tables: Tables) -> Iterator[tuple[str, str, Mapping[str, Any]]]:
    for table, code in _PRICED:
        yield from ((table.name, str(row[code]), row) for row in tables.get(table.name, ()))
