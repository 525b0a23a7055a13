"""One sheet of a catalogue: find its headings, read its rows, name every cell that cannot be read."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Any

from pipeline.intake.catalogue.cell import UNREAD, Wrong, blank, bracket, heading_fault, read_value
from pipeline.intake.catalogue.faults import Fault
from pipeline.reading.book import Cell, Sheet, address
from schemas.column import Column, Table

HEADINGS_WITHIN = 100
"""Rows with something in them among which the heading row is looked for."""


@dataclass(frozen=True, slots=True)
class Line:
    """One row of a table: its values by column name (None blank, UNREAD in doubt), and where they stand."""

    row: int
    values: dict[str, Any]
    cells: dict[str, str]
    raw: dict[str, Cell]

    def has(self, *names: str) -> bool:
        """Whether each of these stands there and was read."""
        return all(self.values.get(n) not in (None, UNREAD) for n in names)


@dataclass(frozen=True, slots=True)
class Lines:
    """A sheet, read: its rows, where its headings stand and what was noticed."""

    table: Table
    rows: tuple[Line, ...]
    heading_row: int = 1
    columns: dict[str, int] | None = None  # column name -> column number
    notes: tuple[str, ...] = ()
    brackets: dict[str, str] | None = None  # column name -> what stands in the heading's brackets

    def at(self, name: str) -> str:
        """Address of a column's heading."""
        return address(self.heading_row, (self.columns or {}).get(name, 1))


def fold(text: str) -> str:
    """A heading or a sheet's name without regard to case, spaces and punctuation."""
    return re.sub(r"[\W_]+", " ", text.casefold()).strip()


def read_sheet(table: Table, sheet: Sheet, faults: list[Fault]) -> Lines:
    """Rows of one table; each fault of its headings and cells is added to `faults`."""
    by_row: dict[int, dict[int, Cell]] = {}
    for cell in sheet.cells:
        by_row.setdefault(cell.row, {})[cell.column] = cell
    row = _heading_row(table, by_row)
    if row is None:
        words = ", ".join(c.titled for c in table.columns)
        faults.append(Fault(table.name, "A1", "No row of headings was found on this sheet.", f"Head its columns: {words}."))
        return Lines(table, ())
    columns, units, brackets, notes = _headings(table, row, by_row[row], faults)
    rows = []
    for number in sorted(r for r in by_row if r > row):
        cells = {name: by_row[number][at] for name, at in columns.items() if at in by_row[number]}
        if cells and not _heads_again(table, by_row[number]):
            rows.append(_line(table, number, cells, columns, units, faults))
    return Lines(table, tuple(rows), row, columns, tuple(notes), brackets)


def _known(table: Table, cell: Cell) -> tuple[Column, str] | None:
    """The column that a heading names, with what stands in its brackets."""
    if cell.kind != "text":
        return None
    words, unit = bracket(str(cell.value))
    return next(((c, unit) for c in table.columns if fold(c.heading) == fold(words)), None)


def _heading_row(table: Table, by_row: dict[int, dict[int, Cell]]) -> int | None:
    """The row with most different headings of the table; the first of equals."""
    best, most = None, 0
    for row in sorted(by_row)[:HEADINGS_WITHIN]:
        found = {known[0].name for cell in by_row[row].values() if (known := _known(table, cell))}
        if len(found) > most:
            best, most = row, len(found)
    return best


def _heads_again(table: Table, cells: dict[int, Cell]) -> bool:
    """Whether a row repeats the headings (a table pasted below itself)."""
    found = {known[0].name for cell in cells.values() if (known := _known(table, cell))}
    return len(found) == len(table.columns) and len(found) > 2


def _headings(
    table: Table, row: int, cells: dict[int, Cell], faults: list[Fault]
) -> tuple[dict[str, int], dict[str, str], dict[str, str], list[str]]:
    """Where each column stands and its unit; doubled, missing and ill-headed columns become faults."""
    columns: dict[str, int] = {}
    units: dict[str, str] = {}
    brackets: dict[str, str] = {}
    notes: list[str] = []
    for at, cell in sorted(cells.items()):
        known = _known(table, cell)
        if known is None:
            notes.append(f"{table.name} {cell.address}: the column {str(cell.value)!r} is not one of this table and is not read.")
            continue
        column, inside = known
        if column.name in columns:
            first = address(row, columns[column.name])
            faults.append(
                Fault(
                    table.name,
                    cell.address,
                    f"“{column.heading}” stands over two columns, here and at {first}.",
                    "Keep one of them.",
                )
            )
            continue
        columns[column.name] = at
        brackets[column.name] = inside
        wrong = heading_fault(column, inside)
        if wrong:
            faults.append(Fault(table.name, cell.address, wrong.message, wrong.suggestion))
        units[column.name] = "" if wrong else inside
        if wrong:
            units[column.name] = column.unit  # read on, so that the cells' own faults show as well
    for column in table.columns:
        if column.name not in columns and not column.may_be_missing and (column.needed or column.kind != "text"):
            faults.append(
                Fault(
                    table.name,
                    address(row, 1),
                    f"There is no column “{column.heading}”.",
                    f"Add a column headed “{column.titled}”.",
                )
            )
    return columns, units, brackets, notes


def _line(
    table: Table, row: int, cells: dict[str, Cell], columns: dict[str, int], units: dict[str, str], faults: list[Fault]
) -> Line:
    """One row's values; what is blank and needed or cannot be read becomes a fault at its cell."""
    values: dict[str, Any] = {}
    places = {name: address(row, at) for name, at in columns.items()}
    for column in table.columns:
        name = column.name
        if name not in columns:
            values[name] = UNREAD if column.needed else blank(column) if column.may_be_missing else None
            continue
        value = read_value(column, cells.get(name), units[name])
        if isinstance(value, Wrong):
            faults.append(Fault(table.name, places[name], value.message, value.suggestion))
            value = UNREAD
        values[name] = value
    return Line(row, values, places, cells)
