"""Cells as people typed them, from tables that can be read."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import date


@dataclass(frozen=True)
class Day:
    """A cell that the spreadsheet program has turned into a date, with the form in which it shows it."""

    day: date
    form: str


@dataclass(frozen=True)
class Formula:
    """A formula, with the result that the file stores: a number, an error such as `#N/A`, None = none at all."""

    text: str
    result: float | str | None


Cell = str | int | float | Day | Formula | None
Row = Sequence[Cell]


@dataclass(frozen=True)
class Sheet:
    """One sheet of a file; `above` and `below` are rows around the table, `hidden` 1-based rows, `widths` by column.

    `merged` joins so many columns of the first row.
    """

    name: str
    rows: Sequence[Row]
    above: Sequence[Row] = ()
    below: Sequence[Row] = ()
    hidden: tuple[int, ...] = ()
    merged: int = 0
    heads: int = 1
    widths: dict[int, float] = field(default_factory=dict)

    @property
    def all_rows(self) -> list[Row]:
        """Every row from the first on."""
        return [*self.above, *self.rows, *self.below]

    @property
    def head_rows(self) -> range:
        """0-based rows of the headings."""
        return range(len(self.above), len(self.above) + self.heads)


_NUMBER = re.compile(r"-?\d+(\.\d+)?")


def table(text: str, then: Sequence[Row] = ()) -> list[Row]:
    """Rows of a table with `|` between the cells: `^` repeats the cell above, a plain number is one, `'1` is text.

    `!2002-03-01 d-mmm` is a date, `!=A1*2 -> 8.5` a formula with its stored result, `!=A1` one without.
    """
    rows: list[list[str]] = []
    for line in text.strip().splitlines():
        cells = [c.strip() for c in line.split("|")]
        rows.append([rows[-1][n] if c == "^" else c for n, c in enumerate(cells)])
    return [[cell(c) for c in row] for row in rows] + list(then)


def cell(text: str) -> Cell:
    """One cell of such a table."""
    if not text:
        return None
    if text.startswith("'"):
        return text[1:]
    if text.startswith("!="):
        formula, arrow, result = text[1:].partition(" -> ")
        return Formula(formula, (float(result) if _NUMBER.fullmatch(result) else result) if arrow else None)
    if text.startswith("!"):
        day, _, form = text[1:].partition(" ")
        return Day(date.fromisoformat(day), form)
    if _NUMBER.fullmatch(text):
        return float(text) if "." in text else int(text)
    return text


def lines(rows: Sequence[Row]) -> list[list[str]]:
    """Rows of plain texts, all of one length, as a text file holds them."""
    width = max(len(r) for r in rows)
    return [["" if c is None else str(c) for c in (*r, *[None] * (width - len(r)))] for r in rows]
