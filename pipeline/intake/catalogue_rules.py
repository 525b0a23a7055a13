"""What must hold within a table of the catalogue and between them; each rule adds its faults, cell by cell."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from difflib import get_close_matches
from typing import Any

from pipeline.intake.catalogue_cell import UNREAD
from pipeline.intake.catalogue_faults import Fault
from pipeline.intake.catalogue_sheet import Line, Lines
from pipeline.intake.model import address
from schemas.column import SI_UNIT
from schemas.order import folded

ITEMS = {"Mounts": "mount", "Boards": "board", "Rings": "ring", "Extensions": "extension"}
"""Tables of things that are sold, and the column with their code."""

MAY_BE_ZERO = frozenset(
    {"size_least_m", "travel_m", "step_m", "overhang_m", "mass_kg", "bore_least_m", "price", "discount_percent"}
)
"""Numbers of which 0 means something; every other number must be above 0, and none below."""

LEAST_AND_MOST = (("size_least_m", "size_most_m"), ("bore_least_m", "bore_most_m"))

SLACK_M = 1e-6
"""Slack of every comparison of lengths, so that 4 in and 0.333333 ft are one window's two ends."""

Read = Mapping[str, Lines]
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
                if line.has(least, most) and line.values[least] > line.values[most] + SLACK_M:
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
    """Travel and step go with the kind of adjustment."""
    for line in read["Mounts"].rows:
        if not line.has("adjustment"):
            continue
        kind, travel, step = (line.values[n] for n in ("adjustment", "travel_m", "step_m"))
        if travel is UNREAD or step is UNREAD:
            continue
        travel, step = travel or 0.0, step or 0.0

        def fault(name: str, message: str, suggestion: str, line: Line = line) -> None:
            faults.append(Fault("Mounts", line.cells.get(name, line.cells.get("adjustment", "")), message, suggestion))

        if kind == "stepped" and step == 0:
            fault("step_m", "A stepped mount needs a ring step.", "Type the distance between two settings, such as 6 in.")
        elif kind == "stepped" and step > travel + 1e-9:
            fault("step_m", "The ring step is greater than the ring travel.", "Type a smaller step, or the whole travel.")
        elif kind == "fixed" and travel > 0:
            fault(
                "travel_m",
                "A fixed mount has no ring travel.",
                "Leave the cell blank, or set Adjustment to stepped or continuous.",
            )
        elif kind == "continuous" and step > 0:
            fault("step_m", "A continuous mount has no ring step.", "Leave the cell blank, or set Adjustment to stepped.")


def codes_once(read: Read, faults: list[Fault]) -> None:
    """A code stands once in its table, and once among all things that are sold."""
    first: dict[str, tuple[str, str]] = {}
    for table, name in (*ITEMS.items(), ("Services", "service")):
        goods = first if table != "Services" else {}
        for line in read[table].rows:
            if not line.has(name):
                continue
            code = line.values[name]
            sheet, cell = goods.setdefault(folded(code), (table, line.cells[name]))
            if (sheet, cell) != (table, line.cells[name]):
                where = f"at {cell}" if sheet == table else f"on the sheet {sheet} at {cell}"
                faults.append(
                    Fault(
                        table,
                        line.cells[name],
                        f"The code “{code}” is used twice; it stands {where} already.",
                        "Give it a code of its own.",
                    )
                )


def pairings(read: Read, faults: list[Fault]) -> None:
    """A pairing names a mount and a board that stand in the catalogue, once."""
    known = {"mount": _codes(read, "Mounts"), "board": _codes(read, "Boards")}
    seen: dict[tuple[str, str], int] = {}
    for line in read["Pairings"].rows:
        for name, codes in known.items():
            if line.has(name) and read[f"{name.capitalize()}s"].columns is not None:
                _known_code("Pairings", line, name, codes, f"sheet {name.capitalize()}s", faults)
        if line.has("mount", "board"):
            pair = (folded(line.values["mount"]), folded(line.values["board"]))
            if seen.setdefault(pair, line.row) != line.row:
                faults.append(
                    Fault(
                        "Pairings",
                        line.cells["mount"],
                        f"This pair stands in row {seen[pair]} already.",
                        "Delete one of the two rows.",
                    )
                )


def price_breaks(read: Read, faults: list[Fault]) -> None:
    """A price break is for something that is sold, once a quantity."""
    codes = {k: v for table in ITEMS for k, v in _codes(read, table).items()}
    seen: dict[tuple[str, int], int] = {}
    for line in read["Price breaks"].rows:
        if line.has("item") and all(read[table].columns is not None for table in ITEMS):
            _known_code("Price breaks", line, "item", codes, "sheets of mounts, boards, rings and extensions", faults)
        if line.has("item", "from_quantity"):
            key = (folded(line.values["item"]), line.values["from_quantity"])
            if seen.setdefault(key, line.row) != line.row:
                message = f"Row {seen[key]} has a price for this item from this quantity already."
                faults.append(Fault("Price breaks", line.cells["from_quantity"], message, "Keep one of the two rows."))


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
    """A customer stands once; a discount is at most 100 %."""
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
        if line.has("customer"):
            key = customer_key(line.values["customer"])
            if seen.setdefault(key, line.row) != line.row:
                message = f"This customer stands in row {seen[key]} already (case and spaces do not count)."
                faults.append(Fault("Customers", line.cells["customer"], message, "Keep one of the two rows."))


def something_to_sell(read: Read, faults: list[Fault]) -> None:
    """At least one active mount, board and ring, and one pairing."""
    for table, name in ITEMS.items():
        lines = read[table]
        if table == "Extensions" or lines.columns is None:
            continue
        if not any(line.values.get("status") in ("active", UNREAD) for line in lines.rows):
            faults.append(Fault(table, lines.at(name), f"There is no active {name}.", f"Add a {name} with the status active."))
    if read["Pairings"].columns is not None and not read["Pairings"].rows:
        faults.append(
            Fault(
                "Pairings",
                read["Pairings"].at("mount"),
                "There is no pairing, so nothing can be sold.",
                "List each mount with each board that it may carry.",
            )
        )


def one_currency(read: Read, faults: list[Fault]) -> None:
    """A currency in the brackets of a price's heading is the policy's."""
    from pipeline.intake.currencies import ISO_4217

    policy = next((str(x.values["value"]).upper() for x in read["Policy"].rows if x.values.get("setting") == "currency"), "USD")
    for table, lines in read.items():
        inside = (lines.brackets or {}).get("price", "").upper()
        if inside in ISO_4217 and inside != policy:
            faults.append(
                Fault(
                    table,
                    lines.at("price"),
                    f"The prices are headed {inside}, but the policy's currency is {policy}.",
                    "Make the two agree.",
                )
            )


RULES: tuple[Rule, ...] = (
    signs, least_above_most, adjustments, codes_once, pairings, price_breaks, freight, customers, something_to_sell, one_currency,
)  # fmt: skip


def customer_key(name: str) -> str:
    """A customer's name as it is compared: without regard to case and spaces."""
    return "".join(name.split()).casefold()


def _codes(read: Read, table: str) -> dict[str, str]:
    """Codes of a table by how they are compared."""
    name = ITEMS[table]
    return {folded(x.values[name]): x.values[name] for x in read[table].rows if x.has(name)}


def _known_code(table: str, line: Line, name: str, codes: Mapping[str, str], where: str, faults: list[Fault]) -> None:
    """A fault where the code of a cell stands on no sheet of its own."""
    code: Any = line.values[name]
    if folded(code) in codes:
        return
    near = get_close_matches(folded(code), list(codes), n=1, cutoff=0.6)
    hint = f"Did you mean {codes[near[0]]}?" if near else "Delete the row, or add the item."
    faults.append(Fault(table, line.cells[name], f"“{code}” is not on the {where}.", hint))
