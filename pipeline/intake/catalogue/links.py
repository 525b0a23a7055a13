"""What must hold between the tables of the catalogue: codes, pairs, price breaks, one currency."""

from __future__ import annotations

from collections.abc import Mapping
from difflib import get_close_matches
from typing import Any

from pipeline.intake.catalogue.cell import UNREAD
from pipeline.intake.catalogue.currencies import ISO_4217
from pipeline.intake.catalogue.faults import Fault
from pipeline.intake.catalogue.sheet import Line, Lines
from schemas.order import folded

ITEMS = {"Mounts": "mount", "Boards": "board", "Rings": "ring", "Extensions": "extension"}
"""Tables of things that are sold, and the column with their code."""

Read = Mapping[str, Lines]


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
    """A pairing names a mount and a board that stand in the catalogue."""
    known = {"mount": _codes(read, "Mounts"), "board": _codes(read, "Boards")}
    for line in read["Pairings"].rows:
        for name, codes in known.items():
            if line.has(name) and read[f"{name.capitalize()}s"].columns is not None:
                _known_code("Pairings", line, name, codes, f"sheet {name.capitalize()}s", faults)


def price_breaks(read: Read, faults: list[Fault]) -> None:
    """A price break is for something that is sold."""
    codes = {k: v for table in ITEMS for k, v in _codes(read, table).items()}
    for line in read["Price breaks"].rows:
        if line.has("item") and all(read[table].columns is not None for table in ITEMS):
            _known_code("Price breaks", line, "item", codes, "sheets of mounts, boards, rings and extensions", faults)


def something_to_sell(read: Read, faults: list[Fault]) -> None:
    """At least one active mount, board and ring, and one pairing."""
    for table, name in ITEMS.items():
        lines = read[table]
        if table == "Extensions" or lines.columns is None:
            continue
        if not any(line.values.get("status") in ("active", UNREAD, None) for line in lines.rows):
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
