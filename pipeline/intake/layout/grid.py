"""A sheet as rows of cells, upright, or turned so that what stands in columns reads as rows."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass

from pipeline.reading.book import Cell, Sheet, address

Row = Mapping[int, Cell]
"""Cells of one row of a grid by their place in it; each cell keeps its own address."""


@dataclass(frozen=True)
class Grid:
    """Rows of a sheet that hold anything, in order; `turned` where the sheet's columns are its rows."""

    sheet: Sheet
    rows: tuple[tuple[int, dict[int, Cell]], ...]
    turned: bool = False
    part: str = ""  # where several parts of a sheet have the same columns: `, from row 9`

    def at(self, row: int, column: int) -> str:
        """The sheet's own address of a place in the grid."""
        return address(column, row) if self.turned else address(row, column)

    def label(self, row: int) -> str:
        """A row of the grid in words that a person uses: `row 7`, `column D`."""
        return f"column {address(1, row)[:-1]}{self.part}" if self.turned else f"row {row}"


def upright(sheet: Sheet) -> Grid:
    """The sheet as it stands; cells of nothing but spaces count as blank."""
    return Grid(sheet, _rows(sheet, turned=False))


def turned(sheet: Sheet) -> Grid:
    """The sheet with its columns as rows."""
    return Grid(sheet, _rows(sheet, turned=True), turned=True)


def _rows(sheet: Sheet, turned: bool) -> tuple[tuple[int, dict[int, Cell]], ...]:
    rows: dict[int, dict[int, Cell]] = {}
    for cell in sheet.cells:
        if not (cell.kind == "text" and is_blank(str(cell.value))):
            row, column = (cell.column, cell.row) if turned else (cell.row, cell.column)
            rows.setdefault(row, {})[column] = cell
    return tuple((n, dict(sorted(cells.items()))) for n, cells in sorted(rows.items()))


_VISIBLE = re.compile(r"[^\s\u200b-\u200f\u2060\ufeff\u00ad]")


def is_blank(text: str) -> bool:
    """Whether nothing of `text` can be seen."""
    return _VISIBLE.search(text) is None


def line(text: str) -> str:
    """The text on one line."""
    return " ".join(text.split())
