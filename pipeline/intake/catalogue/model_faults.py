"""The catalogue's tables held to their models once; each failure becomes the fault at its cell."""

from __future__ import annotations

from collections.abc import Mapping

from pipeline.intake.catalogue.cell import UNREAD, blank_fault
from pipeline.intake.catalogue.faults import Fault
from pipeline.intake.catalogue.links import ITEMS
from pipeline.intake.catalogue.sheet import Line, Lines
from schemas.catalogue import CATALOGUE, LEAST_AND_MOST
from schemas.order import folded

_ASKED_ELSEWHERE = (
    *ITEMS,
    "Services",
    "Customers",
    "Headings",
    "Words",
    "Policy",
)  # their rules look at it


def model_faults(read: Mapping[str, Lines], faults: list[Fault]) -> None:
    """Every row of every table against its model."""
    from schemas.catalogue_model import catalogue_model
    from schemas.frames import failures, frame

    for table in CATALOGUE:
        lines = read[table.name]
        if not lines.rows:
            continue
        rows = [{n: None if v is UNREAD else v for n, v in line.values.items()} for line in lines.rows]
        for failure in failures(frame(rows, table), catalogue_model(table)):
            line = lines.rows[failure.row]
            if failure.column:
                faults += _of_cell(lines, line, failure.column, failure.check)
            else:
                faults += _of_row(lines, line, failure.check)


def _of_cell(lines: Lines, line: Line, name: str, check: str) -> list[Fault]:
    """What one cell says: nothing where it is needed, or a number that cannot be."""
    if line.values[name] is UNREAD:  # said when it was read
        return []
    column = lines.table.column(name)
    if check == "not_nullable":
        message, instead = blank_fault(column)
    elif check == "negative":
        message, instead = f"“{column.heading}” is negative.", "Type it without the minus sign."
    elif check == "zero":
        blank = "" if column.needed else " Leave the cell blank where it is not known."
        message, instead = f"“{column.heading}” is 0.", f"Type what it measures.{blank}"
    elif check == "above all":
        message, instead = f"The {column.heading.lower()} is above 100 %.", "Type a percentage from 0 to 100, such as 10."
    else:
        return [Fault(lines.table.name, line.cells[name], f"“{column.heading}” cannot be used.", column.help)]
    return [Fault(lines.table.name, line.cells[name], message, instead)]


def _of_row(lines: Lines, line: Line, check: str) -> list[Fault]:
    """What several cells say together, or a row beside those above it."""
    table = lines.table
    if check == "step_m":
        if line.values["step_m"] is UNREAD:
            return []
        cell = line.cells.get("step_m", line.cells.get("adjustment", ""))
        return [
            Fault(table.name, cell, "A stepped mount needs a ring step.", "Type the distance between two settings, such as 6 in.")
        ]
    if check == "key":
        return [] if table.name in _ASKED_ELSEWHERE else [_twice(lines, line)]
    most = dict(LEAST_AND_MOST)[check]
    message = f"“{table.column(check).heading}” is above “{table.column(most).heading}” ({line.cells[most]})."
    return [Fault(table.name, line.cells[check], message, "Change them over, or correct one.")]


def _twice(lines: Lines, line: Line) -> Fault:
    """A key that stands in a row above."""
    key = lines.table.key
    first = next(other.row for other in lines.rows if _key(other, key) == _key(line, key))
    message = {
        "Pairings": f"This pair stands in row {first} already.",
        "Price breaks": f"Row {first} has a price for this item from this quantity already.",
    }.get(lines.table.name, f"“{line.values[key[0]]}” stands in row {first} already.")
    return Fault(
        lines.table.name,
        line.cells[key[-1] if lines.table.name == "Price breaks" else key[0]],
        message,
        "Keep one of the two rows.",
    )


def _key(line: Line, names: tuple[str, ...]) -> tuple[object, ...]:
    return tuple(folded(v) if isinstance(v := line.values[n], str) else v for n in names)
