"""One cell of a catalogue: to an SI float, a word, Decimal money or a whole number, or to what is wrong with it."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from decimal import Decimal
from difflib import get_close_matches
from fractions import Fraction
from typing import Any, Final

from pipeline.intake.measures import Doubt, read_decimal, read_measure, read_whole
from pipeline.reading.book import Cell
from schemas.column import SI_UNIT, Column
from schemas.order import folded

PERCENT: Final = "100 %"
"""Unit of a number that is stored as a share and shown in per cent."""


class _Unread:
    """What stands in a row for a cell that is filled and cannot be read."""

    def __repr__(self) -> str:
        return "UNREAD"


UNREAD: Final = _Unread()


@dataclass(frozen=True, slots=True)
class Wrong:
    """Why a cell cannot be read, and what to type instead."""

    message: str
    suggestion: str


def bracket(heading: str) -> tuple[str, str]:
    """A heading parted into its words and what stands in its last brackets, ('Mass', 'lb')."""
    found = re.fullmatch(r"\s*(.*?)\s*[\[({]\s*([^\[\](){}]*?)\s*[\])}]\s*", heading, re.DOTALL)
    return (found[1], found[2]) if found else (heading.strip(), "")


def unit_fits(unit: str, kind: str) -> bool:
    """Whether `unit` is a unit of the kind: a 1 with it must be a measure, or be taken for feet and inches."""
    read = read_measure("1", kind, unit)
    return not isinstance(read, Doubt) or (kind == "length" and not isinstance(read_measure("8-6", kind, unit), Doubt))


def heading_fault(column: Column, inside: str) -> Wrong | None:
    """What is wrong with the unit in a heading's brackets, if anything."""
    kind = "length" if column.kind in ("lengths", "pipe") else column.kind
    if not inside or (kind not in SI_UNIT and kind != "percent") or unit_fits(inside, kind):
        return None
    return Wrong(
        f"“{inside}” is no unit of {kind} that is known here.",
        f"Head the column “{column.titled}”, or with another unit of {kind}.",
    )


def read_value(column: Column, cell: Cell | None, unit: str) -> Any:
    """The cell's value by the column's kind; None where it is blank, Wrong where it is in doubt.

    `unit` is what stands in the heading's brackets. A note is never wrong: nothing is computed from it.
    """
    if column.name == "note":
        return "" if cell is None else str(cell.shown or cell.value or "").strip()
    if cell is None or (cell.kind == "text" and not str(cell.value).strip()):
        return blank(column)
    if wrong := unusable(cell):
        return wrong
    if column.kind in ("text", "code"):
        return cell.shown if cell.kind == "number" and cell.shown else as_text(cell)
    if cell.kind == "bool":
        return Wrong(f"“{as_text(cell)}” is no {_what(column)}.", _example(column))
    if column.kind == "choice":
        return word(column.values, as_text(cell))
    return number(column.kind, cell, unit)


def blank_fault(column: Column) -> tuple[str, str]:
    """What to say of a blank cell where one is needed, and what to type."""
    put_right = f"Type one of: {', '.join(column.values)}." if column.kind == "choice" else _example(column)
    return f"“{column.heading}” is blank.", put_right


def blank(column: Column) -> Any:
    """What a blank cell means; None where it is needed, which the table's model asks for."""
    if column.needed:
        return None
    if not column.default:
        return "" if column.kind == "text" else None
    if column.kind in ("choice", "text", "code"):
        return column.default
    return Decimal(column.default) if column.kind in ("money", "percent") else float(column.default)


def unusable(cell: Cell) -> Wrong | None:
    """Why a cell holds no value that a person typed: an error, a formula without a result, a date."""
    if cell.kind == "error":
        return Wrong(f"The cell shows the error {cell.value}.", "Type the value, or mend the formula.")
    if cell.kind == "no_result":
        return Wrong(
            "The cell holds a formula without a stored result.",
            "Open the workbook in a spreadsheet program, let it calculate and save it; or type the value.",
        )
    if cell.kind == "date":
        return Wrong(
            f"The spreadsheet program has turned this cell into a date ({cell.shown or cell.value}).",
            "Set the cell's format to Text and type the value again.",
        )
    return None


def as_text(cell: Cell) -> str:
    """What stands there as words; a whole number has no decimal point."""
    value = cell.value
    if isinstance(value, bool):
        return "TRUE" if value else "FALSE"
    if isinstance(value, float):
        return str(int(value)) if value.is_integer() and abs(value) < 1e15 else format(value, ".15g")
    return str(value).strip()


def word(values: tuple[str, ...], typed: str) -> str | Wrong:
    """The word of the list that is meant, without regard to case and spaces."""
    by_fold = {folded(v): v for v in values}
    if folded(typed) in by_fold:
        return by_fold[folded(typed)]
    near = get_close_matches(folded(typed), list(by_fold), n=1, cutoff=0.6)
    hint = f"Type {by_fold[near[0]]}" if near else f"Type one of: {', '.join(values)}"
    rest = f" (the list is {', '.join(values)})" if near else ""
    return Wrong(f"“{typed}” is not in the list of this column.", f"{hint}{rest}.")


def number(kind: str, cell: Cell, unit: str) -> Any:
    """A number cell or a text with a number: whole as int, money and percent as Decimal, else an SI float."""
    if isinstance(cell.value, float) and not math.isfinite(cell.value):
        return Wrong(f"“{cell.value}” is no number.", "Type the number.")
    if kind == "whole":
        whole = read_whole(plain(cell))
        return _wrong(whole) if isinstance(whole, Doubt) else whole
    if kind == "money":
        money = read_decimal(plain(cell))
        return _wrong(money) if isinstance(money, Doubt) else money
    if kind == "percent":
        share = percent(cell, unit)
        return share if isinstance(share, Wrong) else exact(share * 100)
    read = read_measure(plain(cell), kind, own_unit(cell) or unit)
    return _wrong(read) if isinstance(read, Doubt) else float(read.value)


def percent(cell: Cell, unit: str) -> Fraction | Wrong:
    """A percentage as a fraction of one; a number that its format shows as a percentage is taken as shown."""
    if cell.kind == "number" and cell.shown_unit == PERCENT:
        return Fraction(str(plain(cell)))
    read = read_measure(plain(cell), "percent", own_unit(cell) or unit or "%")
    return _wrong(read) if isinstance(read, Doubt) else Fraction(read.value) / 100


def plain(cell: Cell) -> Any:
    """The cell's value for the grammar; a computed number keeps the 15 digits that spreadsheets show."""
    if isinstance(cell.value, float):
        short = float(format(cell.value, ".15g"))
        return int(short) if short.is_integer() and abs(short) < 1e15 else short
    return cell.value


def own_unit(cell: Cell) -> str:
    """The unit that a number's format shows; a length shown in per cent is then in doubt."""
    return cell.shown_unit if cell.kind == "number" else ""


def exact(value: Fraction) -> Decimal:
    """The fraction as a decimal number (28 digits where it does not end)."""
    return Decimal(value.numerator) / Decimal(value.denominator)


def _wrong(doubt: Doubt) -> Wrong:
    return Wrong(doubt.message, doubt.suggestion)


def _what(column: Column) -> str:
    return {"money": "price", "whole": "whole number", "choice": "word of the list"}.get(column.kind, column.kind)


def _example(column: Column) -> str:
    """What to type into a cell of the column."""
    if column.kind in ("length", "mass", "moment"):
        return f"Type a {column.kind}, such as 12 {column.unit}."
    if column.kind == "money":
        return "Type the price as a plain number, such as 129.50."
    if column.kind == "whole":
        return "Type a whole number, such as 10."
    return f"Type it: {column.help[:1].lower()}{column.help[1:]}"
