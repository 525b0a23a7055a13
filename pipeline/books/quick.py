"""A worksheet whose commonest cells, text and numbers, are written in fewer steps; the bytes mean the same.

It leans on how the spreadsheet library keeps its cells. A test compares both ways, so that a new version of the
library cannot break this unseen.
"""

from __future__ import annotations

from typing import Any

from xlsxwriter.utility import xl_col_to_name, xl_range
from xlsxwriter.worksheet import CellNumberTuple, CellStringTuple, Worksheet

_LETTERS = tuple(xl_col_to_name(column) for column in range(256))


class QuickWorksheet(Worksheet):
    """The library's worksheet with short cuts for cells that have a format."""

    def reach(self, row: int, column: int) -> None:
        """Makes room: `quick_text` and `quick_number` write no cell beyond the cells reached."""
        if self._check_dimensions(row, column):
            raise ValueError(f"no worksheet has row {row + 1} and column {column + 1}")

    def quick_text(self, row: int, column: int, text: str, look: Any) -> None:
        """Writes clean text into a cell that was reached."""
        self.table[row][column] = CellStringTuple(self.str_table._get_shared_string_index(text), look)

    def quick_number(self, row: int, column: int, number: float, look: Any) -> None:
        """Writes a finite number into a cell that was reached."""
        self.table[row][column] = CellNumberTuple(number, look)

    def quick_table(self, top: int, rows: int, columns: int, options: dict[str, Any]) -> int:
        """Like `add_table` from the first column, without its search for overlaps, cell by cell; 0 where all is well."""
        refused = self.add_table(top, 0, top + 1, columns - 1, options)
        if not refused:
            place = xl_range(top, 0, top + rows, columns - 1)
            self.tables[-1].update(range=place, a_range=place, autofilter=place)
        return refused

    def _write_cell(self, row: int, col: int, cell: Any) -> None:
        kind = type(cell)
        if kind is CellStringTuple and cell.format is not None and col < 256:
            index = cell.format._get_xf_index()
            self.fh.write(f'<c r="{_LETTERS[col]}{row + 1}" s="{index}" t="s"><v>{cell.string}</v></c>')
        elif kind is CellNumberTuple and cell.format is not None and col < 256:
            index = cell.format._get_xf_index()
            self.fh.write(f'<c r="{_LETTERS[col]}{row + 1}" s="{index}"><v>{cell.number:.16G}</v></c>')
        else:
            super()._write_cell(row, col, cell)

    def _calculate_spans(self) -> None:
        # Spans are a hint for readers and optional. Source: ECMA-376 part 1, 18.3.1.73 row.
        self.row_spans: dict[int, str] = {}
