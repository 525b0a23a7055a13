"""What must hold within a table of the catalogue; each rule adds its faults, cell by cell. `RULES` lists all rules."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from pipeline.intake.catalogue.cell import UNREAD
from pipeline.intake.catalogue.faults import Fault
from pipeline.intake.catalogue.links import Read, codes_once, one_currency, pairings, price_breaks, something_to_sell
from pipeline.intake.catalogue.sheet import Line
from pipeline.intake.catalogue.words import sellers_headings, sellers_words
from pipeline.money.customers import customer_key, other_names
from pipeline.reading.book import address
from schemas.column import SI_UNIT
from schemas.lengths import SLACK

MAY_BE_ZERO = frozenset(
    {"size_least_m", "travel_m", "step_m", "overhang_m", "mass_kg", "bore_least_m", "price", "discount_percent"}
)
"""Numbers of which 0 means something; every other number must be above 0, and none below."""

LEAST_AND_MOST = (("size_least_m", "size_most_m"), ("bore_least_m", "bore_most_m"))


Rule = Callable[[Read, list[Fault]], None]


def signs(read: Read, faults: list[Fault]) -> None:
    """No number is negative, and none is 0 where 0 makes no sense."""
    for table, lines in read.items():
        numbers = [c for c in lines.table.columns if c.kind in SI_UNIT or c.kind in ("money", "whole", "percent")]
        for line in lines.rows:
            for c in numbers:
                if not line.has(c.name):
                    continue
                if line.values[c.name] < 0:
                    faults.append(
                        Fault(table, line.cells[c.name], f"“{c.heading}” is negative.", "Type it without the minus sign.")
                    )
                elif line.values[c.name] == 0 and c.name not in MAY_BE_ZERO:
                    blank = "" if c.needed else " Leave the cell blank where it is not known."
                    faults.append(Fault(table, line.cells[c.name], f"“{c.heading}” is 0.", f"Type what it measures.{blank}"))


def least_above_most(read: Read, faults: list[Fault]) -> None:
    """A window's least is not above its most."""
    for table, lines in read.items():
        for least, most in LEAST_AND_MOST:
            for line in lines.rows:
                if line.has(least, most) and line.values[least] > line.values[most] + SLACK:
                    low, high = lines.table.column(least).heading, lines.table.column(most).heading
                    faults.append(
                        Fault(
                            table,
                            line.cells[least],
                            f"“{low}” is above “{high}” ({line.cells[most]}).",
                            "Change them over, or correct one.",
                        )
                    )


def adjustments(read: Read, faults: list[Fault]) -> None:
    """A stepped mount has a step."""
    for line in read["Mounts"].rows:
        if not line.has("adjustment") or line.values["step_m"] is UNREAD:
            continue
        if line.values["adjustment"] == "stepped" and not line.values["step_m"]:
            cell = line.cells.get("step_m", line.cells.get("adjustment", ""))
            hint = "Type the distance between two settings, such as 6 in."
            faults.append(Fault("Mounts", cell, "A stepped mount needs a ring step.", hint))


def odd_adjustments(read: Read) -> list[str]:
    """Notes on travel and step that a mount's kind of adjustment does not use."""
    return [f"Mounts {line.cells['mount']}: {why}" for line in read["Mounts"].rows for why in _odd(line.values)]


def _odd(values: Mapping[str, Any]) -> list[str]:
    kind, travel, step = values["adjustment"], values["travel_m"] or 0.0, values["step_m"] or 0.0
    odd = {
        "fixed": (travel > 0, "a fixed mount has no ring travel; what stands there is not used."),
        "stepped": (step > travel + SLACK, "the ring step is greater than the ring travel, so there is one setting only."),
        "continuous": (step > 0, "a continuous mount has no ring step; what stands there is not used."),
    }
    return [why for is_odd, why in (odd[kind],) if is_odd]


def freight(read: Read, faults: list[Fault]) -> None:
    """Bounds rise from row to row, and only the last row is open."""
    lines = read["Freight"]
    if lines.columns is None or "mass_most_kg" not in lines.columns:
        return
    if not lines.rows:
        cell = address(lines.heading_row + 1, lines.columns["mass_most_kg"])
        faults.append(
            Fault("Freight", cell, "There is no freight price.", "Give at least one row with the mass left blank: everything.")
        )
        return
    before = 0.0
    for line in lines.rows:
        bound, cell = line.values["mass_most_kg"], line.cells["mass_most_kg"]
        last = line is lines.rows[-1]
        if bound is None and not last:
            faults.append(
                Fault(
                    "Freight",
                    cell,
                    "The mass is blank on a row that is not the last.",
                    "Type the mass up to which the price holds.",
                )
            )
        elif bound is not None and last:
            suggestion = "Add a last row with the mass left blank: everything above."
            faults.append(Fault("Freight", cell, "The last row is not open: it has a mass.", suggestion))
        if isinstance(bound, float):
            if 0 < bound <= before:
                faults.append(
                    Fault(
                        "Freight", cell, "The mass is not above that of the row before.", "Put the rows in rising order of mass."
                    )
                )
            before = max(before, bound)


def customers(read: Read, faults: list[Fault]) -> None:
    """A customer stands once; under whatever name; a discount is at most 100 %."""
    seen: dict[str, int] = {}
    for line in read["Customers"].rows:
        if line.has("discount_percent") and line.values["discount_percent"] > 100:
            faults.append(
                Fault(
                    "Customers",
                    line.cells["discount_percent"],
                    "The discount is above 100 %.",
                    "Type a percentage from 0 to 100, such as 10.",
                )
            )
        for cell, name in _names(line):
            key = customer_key(name)
            if seen.setdefault(key, line.row) != line.row:
                message = f"“{name}” stands in row {seen[key]} already (case and spaces do not count)."
                faults.append(Fault("Customers", cell, message, "A name belongs to one customer: take it out of one of the two."))


def _names(line: Line) -> list[tuple[str, str]]:
    """Cell and text of each name that a customer goes by."""
    own = [(line.cells["customer"], line.values["customer"])] if line.has("customer") else []
    others = other_names(line.values) if line.has("also_known_as") else ()
    return own + [(line.cells["also_known_as"], name) for name in others]


def seller(read: Read, faults: list[Fault]) -> None:
    """Each particular of the seller stands once."""
    seen: dict[str, int] = {}
    for line in read["Seller"].rows:
        if line.has("setting") and seen.setdefault(line.values["setting"], line.row) != line.row:
            message = f"“{line.values['setting']}” stands in row {seen[line.values['setting']]} already."
            faults.append(Fault("Seller", line.cells["setting"], message, "Keep one of the two rows."))


RULES: tuple[Rule, ...] = (
    signs, least_above_most, adjustments, codes_once, pairings, price_breaks, freight, customers, seller,
    sellers_headings, sellers_words, something_to_sell, one_currency,
)  # fmt: skip
