"""Cells of one sheet as a reader finds them: numbers with formats, dates, merges, order."""

from __future__ import annotations

from datetime import date, datetime, time
from itertools import pairwise

from pipeline.reading.answers import damaged
from pipeline.reading.book import Cell, Sheet, address
from pipeline.reading.limits import Budget
from pipeline.reading.numberformats import NumberFormat
from pipeline.reading.shown import date_shown, date_value, number_shown

_MERGE_WORK = 50_000_000


def number_cell(row: int, column: int, number: int | float, form: NumberFormat | None, from_1904: bool) -> Cell:
    """A number as its format shows it: plain, with a unit, a percentage (0.02 with the unit `100 %`), or a date.

    A serial number that is no date under a date format shows as `####`, which is an error.
    """
    if form is None:
        return Cell(row, column, "number", number)
    section = form.section(number)
    if section.is_date:
        value = date_value(number, section, from_1904)
        if value is None:
            return Cell(row, column, "error", "#####")
        return Cell(row, column, "date", value, "", date_shown(number, section, from_1904))
    if section.groups > 1:  # digits dealt out to `0' 00"` or `000-00`: what was seen is another number than what is stored
        return Cell(row, column, "text", number_shown(number, section), "", number_shown(number, section))
    if not section.unit:
        return Cell(row, column, "number", number, "", number_shown(number, section) if section.tells else "")
    return Cell(row, column, "number", section.scaled(number), section.unit, number_shown(number, section))


def iso_cell(row: int, column: int, text: str, shown: str = "") -> Cell | None:
    """A cell whose stored value is an ISO 8601 date, date and time, or time of day."""
    for form in (date.fromisoformat, datetime.fromisoformat, time.fromisoformat):
        try:
            moment = form(text)
        except ValueError:
            continue
        if isinstance(moment, datetime) and moment.time() == time(0) and moment.tzinfo is None:
            moment = moment.date()
        return Cell(row, column, "date", moment.isoformat(), "", shown or moment.isoformat())
    return Cell(row, column, "text", text) if text else None


class SheetCells:
    """Collects the cells of one sheet in whatever order they come."""

    def __init__(self, name: str, budget: Budget) -> None:
        self.name = name
        self.hidden_rows: set[int] = set()
        self._budget = budget
        self._cells: list[Cell] = []
        self._merges: list[tuple[int, int, int, int]] = []
        self._hidden_columns: list[tuple[int, int]] = []

    def add(self, cell: Cell) -> None:
        """Take one filled cell; raises UnreadableFileError beyond a limit."""
        self._budget.take_cell(cell.row, cell.column)
        self._cells.append(cell)

    def merge(self, top: int, left: int, bottom: int, right: int) -> None:
        """Cells from (top, left) to (bottom, right) are shown as one."""
        self._merges.append((top, left, bottom, right))

    def hide_columns(self, first: int, last: int) -> None:
        """Columns that are not shown."""
        self._hidden_columns.append((first, last))

    def sheet(self, hidden: bool) -> tuple[Sheet, list[str]]:
        """The sheet, cells in row order, and sentences about what a person does not see in it."""
        cells = self._in_order()
        covered = self._covered(cells) if self._merges else set()
        if covered:
            cells = [c for c in cells if (c.row, c.column) not in covered]
        rows = {c.row for c in cells} if self.hidden_rows else set()
        hidden_rows = tuple(sorted(self.hidden_rows & rows))
        return Sheet(self.name, tuple(cells), hidden, hidden_rows), self._notes(cells, len(covered))

    def _in_order(self) -> list[Cell]:
        """Cells by row and column; one that stands there twice and alike counts once."""
        cells = self._cells
        places = [(c.row, c.column) for c in cells]
        if all(a < b for a, b in pairwise(places)):
            return cells
        cells = sorted(cells, key=lambda c: (c.row, c.column))
        kept = cells[:1]
        for cell in cells[1:]:
            if (cell.row, cell.column) != (kept[-1].row, kept[-1].column):
                kept.append(cell)
            elif repr(cell) != repr(kept[-1]):
                raise damaged(f"cell {cell.address} of sheet “{self.name}” stands there twice with different content")
        return kept

    def _covered(self, cells: list[Cell]) -> set[tuple[int, int]]:
        """Places of filled cells that a merged cell hides; only its top left one is shown."""
        places = {(c.row, c.column) for c in cells}
        hidden: set[tuple[int, int]] = set()
        work = 0
        for top, left, bottom, right in self._merges:
            area = (bottom - top + 1) * (right - left + 1)
            work += min(max(area, 1), len(places))
            if work > _MERGE_WORK:
                raise damaged("its merged cells cannot be told apart")
            if area <= len(places):
                inside = {(r, c) for r in range(top, bottom + 1) for c in range(left, right + 1)} & places
            else:
                inside = {(r, c) for r, c in places if top <= r <= bottom and left <= c <= right}
            inside.discard((top, left))
            hidden |= inside
        return hidden

    def _notes(self, cells: list[Cell], covered: int) -> list[str]:
        notes = []
        where = f"Sheet “{self.name}”" if self.name else "The sheet"
        if covered:
            notes.append(f"{where}: {covered} filled cell(s) under merged cells are not shown there and were passed over.")
        if self._hidden_columns:
            columns = sorted({c.column for c in cells if any(a <= c.column <= b for a, b in self._hidden_columns[:1000])})
            if columns:
                letters = ", ".join(address(1, c)[:-1] for c in columns[:8]) + (" and more" if len(columns) > 8 else "")
                notes.append(f"{where}: column(s) {letters} are hidden; they were read all the same.")
        return notes
