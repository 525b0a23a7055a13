"""What must hold between the rows of the catalogue; each rule adds its faults, cell by cell. `RULES` lists all rules."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from pipeline.intake.catalogue.faults import Fault
from pipeline.intake.catalogue.links import Read, codes_once, one_currency, pairings, price_breaks, something_to_sell
from pipeline.intake.catalogue.sheet import Line
from pipeline.intake.catalogue.words import sellers_headings, sellers_words
from pipeline.money.customers import customer_key, other_names
from pipeline.reading.book import address
from schemas.lengths import SLACK

Rule = Callable[[Read, list[Fault]], None]


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
    """A customer stands once, under whatever name."""
    seen: dict[str, int] = {}
    for line in read["Customers"].rows:
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


RULES: tuple[Rule, ...] = (
    codes_once, pairings, price_breaks, freight, customers,
    sellers_headings, sellers_words, something_to_sell, one_currency,
)  # fmt: skip
