"""What is legal in a catalogue and odd all the same: a slip of a figure, or an item that nobody can order."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from typing import Any

from pipeline.intake.measures.pipes import INCH, PIPES
from schemas.lengths import SLACK
from schemas.order import folded, natural

Row = Mapping[str, Any]
Tables = Mapping[str, Sequence[Row]]

NARROW_GAP = 0.00635
"""Windows that leave less than this between them leave it by mistake, most likely [m]. Source: house rule, 1/4 in."""

IN_INCHES: dict[str, tuple[float, ...]] = {
    "round": (*(float(p.size) for p in PIPES if 2 <= p.nps <= 8), *(float(n * INCH) for n in (2, 3, 5, 6, 8))),
    "square": tuple(float(Fraction(n) * INCH) for n in ("2", "2.5", "3", "3.5", "4", "5", "6", "8")),
}
"""Outside sizes in inches in which posts are mostly made [m], by shape. Source: ASME B36.10M table 1; common practice."""

IN_MILLIMETRES = {
    "round": (60.3, 76.1, 88.9, 101.6, 114.3, 139.7, 168.3),
    "square": (50, 60, 70, 80, 90, 100, 120, 140, 150, 160),
}
"""The same in millimetres [mm]. Source: EN 10219-2, tables of sizes (memory)."""


@dataclass(frozen=True)
class Oddity:
    """One thing to look at: the sheet, the item, and what is odd about it."""

    sheet: str
    item: str
    message: str


def oddities(tables: Tables) -> list[Oddity]:
    """All of them, by sheet and item; withdrawn items are looked at by nobody.

    `tables` maps a sheet's name to its rows by the names of schemas.catalogue, SI, as they were read without a fault.
    """
    return [o for rule in RULES for o in sorted(rule(tables), key=lambda o: natural(o.item))]


def mounts_without_a_size(tables: Tables) -> Iterator[Oddity]:
    """A mount that takes no nominal or common size of post."""
    for m in _active(tables, "Mounts"):
        shape = m["post_shape"]
        sizes = (*IN_INCHES[shape], *(mm / 1000 for mm in IN_MILLIMETRES[shape]))
        if not any(_takes(m, size) for size in sizes):
            window = _window(m["size_least_m"], m["size_most_m"])
            yield Oddity("Mounts", m["mount"], f"takes {shape} posts of {window}: no nominal or common size is among them.")


def gaps_between_windows(tables: Tables) -> Iterator[Oddity]:
    """A gap between the windows of two mounts of one shape which a common size falls into, or which is narrow."""
    for shape in IN_INCHES:
        mounts = sorted((m for m in _active(tables, "Mounts") if m["post_shape"] == shape), key=lambda m: m["size_least_m"])
        reached: Row | None = None
        for below, above in pairwise(mounts):
            reached = below if reached is None or below["size_most_m"] > reached["size_most_m"] else reached
            yield from _gap(reached, above, shape)


def _gap(below: Row, above: Row, shape: str) -> Iterator[Oddity]:
    least, most = below["size_most_m"], above["size_least_m"]
    lost = sorted({round(s, 5) for s in IN_INCHES[shape] if least + SLACK < s < most - SLACK})
    if most - least <= SLACK or (not lost and most - least > NARROW_GAP):
        return
    between = f"no mount takes {shape} posts between {_inches(least)} in ({below['mount']}) and {_inches(most)} in"
    sizes = f": {', '.join(_inches(s) for s in lost)} in among them" if lost else ""
    yield Oddity("Mounts", above["mount"], f"{between}{sizes}.")


def boards_without_a_mount(tables: Tables) -> Iterator[Oddity]:
    """A board that no mount takes: none is paired with it, or it is too wide, or too heavy with each ring, for all that are."""
    mounts, rings = {folded(m["mount"]): m for m in _active(tables, "Mounts")}, _active(tables, "Rings")
    for b in _active(tables, "Boards"):
        mine = [mounts[m] for p in tables.get("Pairings", ()) if folded(p["board"]) == folded(b["board"])
                and (m := folded(p["mount"])) in mounts]  # fmt: skip
        fitting = [r["mass_kg"] for r in rings if folded(r["ring_pattern"]) == folded(b["ring_pattern"])]
        if not mine:
            yield Oddity("Boards", b["board"], "is paired with no mount that is sold.")
        elif not fitting:
            yield Oddity("Boards", b["board"], f"no ring that is sold has its ring pattern, {b['ring_pattern']}.")
        elif not any(_carries(m, b, min(fitting)) for m in mine):
            yield Oddity("Boards", b["board"], "is too wide or too heavy for every mount that it is paired with.")


def extensions_without_a_mount(tables: Tables) -> Iterator[Oddity]:
    """An extension whose upper tube no mount of its shape takes."""
    for e in _active(tables, "Extensions"):
        mounts = (m for m in _active(tables, "Mounts") if m["post_shape"] == e["post_shape"])
        if not any(_takes(m, e["upper_size_m"]) for m in mounts):
            yield Oddity("Extensions", e["extension"], f"no mount takes its upper tube of {_inches(e['upper_size_m'])} in.")


def breaks_above_the_list_price(tables: Tables) -> Iterator[Oddity]:
    """A price break that costs as much as the item without it, or more."""
    kinds = (("Mounts", "mount"), ("Boards", "board"), ("Rings", "ring"), ("Extensions", "extension"))
    prices = {folded(r[code]): r["price"] for sheet, code in kinds for r in _active(tables, sheet)}
    for b in tables.get("Price breaks", ()):
        listed = prices.get(folded(b["item"]))
        if listed is not None and b["price"] >= listed:
            yield Oddity(
                "Price breaks", b["item"], f"costs {b['price']} from {b['from_quantity']} on, and {listed} without the break."
            )


RULES = (
    mounts_without_a_size,
    gaps_between_windows,
    boards_without_a_mount,
    extensions_without_a_mount,
    breaks_above_the_list_price,
)
"""What is looked for; a new one is a function from the tables to oddities, and a row here."""


def _active(tables: Tables, sheet: str) -> list[Row]:
    return [r for r in tables.get(sheet, ()) if r.get("status") != "withdrawn"]


def _takes(mount: Row, size: float) -> bool:
    return bool(mount["size_least_m"] - SLACK <= size <= mount["size_most_m"] + SLACK)


def _carries(mount: Row, board: Row, ring: float) -> bool:
    light = board["mass_kg"] + ring <= mount["board_mass_most_kg"] + SLACK
    return bool(light and board["width_m"] <= mount["board_width_most_m"] + SLACK)


def _inches(metres: float) -> str:
    return f"{metres / float(INCH):.3f}".rstrip("0").rstrip(".")


def _window(least: float, most: float) -> str:
    return f"{_inches(least)} in" if most - least <= SLACK else f"{_inches(least)} to {_inches(most)} in"
