"""A worksheet that takes the commonest cells, text and numbers, as finished markup; the bytes mean the same.

It leans on how the spreadsheet library keeps its cells. A test compares both ways, so that a new version of the
library cannot break this unseen.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from itertools import product
from typing import Any

from xlsxwriter.utility import xl_col_to_name, xl_range
from xlsxwriter.worksheet import RowInfo, Worksheet

from pipeline.xlsx.looks import Looks
from pipeline.xlsx.shapes import Box, Shapes
from pipeline.xlsx.strings import Strings
from pipeline.xlsx.tables import Framed
from pipeline.xlsx.values import As


class _Letters(dict[int, str]):
    """How a cell begins, by column: markup and letters."""

    def __missing__(self, column: int) -> str:
        found = self[column] = f'<c r="{xl_col_to_name(column)}'
        return found


_BEGIN = _Letters()
_HEIGHTS: dict[float, str] = {}


class QuickWorksheet(Worksheet):
    """The library's worksheet with short cuts for cells in a style; `looks` is set by whoever makes it."""

    looks: Looks
    str_table: Strings

    def reach(self, row: int, column: int) -> None:
        """Makes room; a cell that the sheet cannot have is a ValueError."""
        if (
            self.dim_rowmin is not None
            and self.dim_rowmin <= row <= self.dim_rowmax
            and self.dim_colmin is not None
            and self.dim_colmin <= column <= self.dim_colmax
        ):
            return
        if self._check_dimensions(row, column):
            raise ValueError(f"no worksheet has row {row + 1} and column {column + 1}")

    def text(self, row: int, column: int, text: str, style: str) -> None:
        """Writes a text, made safe."""
        self.reach(row, column)
        self.str_table.count += 1
        self.table[row][column] = f"{_BEGIN[column]}{row + 1}{self.looks.text[style]}{self.str_table[text]}</v></c>"

    def number(self, row: int, column: int, number: float, style: str) -> None:
        """Writes a finite number."""
        self.reach(row, column)
        self.table[row][column] = f"{_BEGIN[column]}{row + 1}{self.looks.number[style]}{number:.16G}</v></c>"

    def blank(self, row: int, column: int, style: str) -> None:
        """Gives a cell without a value its style."""
        self.reach(row, column)
        self.table[row][column] = f"{_BEGIN[column]}{row + 1}{self.looks.blank[style]}"

    def merged(self, row: int, first: int, last: int, style: str) -> None:
        """Makes one cell of `first` to `last`; its text is written afterwards."""
        self.merge.append([row, first, row, last])
        self.reach(row, first)
        self.reach(row, last)
        cells, rest = self.table[row], f"{row + 1}{self.looks.blank[style]}"
        for column in range(first, last + 1):
            cells[column] = _BEGIN[column] + rest

    def tall(self, row: int, points: float) -> None:
        """Sets a row's height."""
        pixels = int(points * 4.0 / 3.0 + 0.5)
        self.reach(row, self.dim_colmin or 0)
        self.row_info[row] = RowInfo(height=pixels)
        self.row_sizes[row] = [pixels, False]

    def rows(self, first: int, styles: Sequence[str], rows: Sequence[Sequence[Any]], other: Callable[..., None]) -> None:
        """Writes rows below each other; values that are no text and no finite number go to `other`."""
        self.reach(first + len(rows) - 1, len(styles) - 1)
        strings = self.str_table
        words, figures, empty = self.looks.text, self.looks.number, self.looks.blank
        columns = [(i, _BEGIN[i], style) for i, style in enumerate(styles)]
        texts = 0
        for line, row in enumerate(rows, first):
            cells, place = self.table[line], line + 1
            for (column, begin, own), given in zip(columns, row, strict=True):
                value, style = given if type(given) is As else (given, own)
                kind = type(value)
                if kind is str:
                    texts += 1
                    cells[column] = f"{begin}{place}{words[style]}{strings[value]}</v></c>"
                elif (kind is float or kind is int) and value - value == 0:
                    cells[column] = f"{begin}{place}{figures[style]}{value:.16G}</v></c>"
                elif value is None:
                    cells[column] = f"{begin}{place}{empty[style]}"
                else:
                    other(line, column, value, style)
        strings.count += texts

    def framed(self, top: int, rows: int, name: str, headings: Sequence[str], told: str) -> None:
        """Makes a table of the heading row `top` and `rows` rows below it, from the first column on."""
        place = xl_range(top, 0, top + rows, len(headings) - 1)
        self.tables.append({"name": name, "framed": Framed(place, name, tuple(headings), told)})

    def write_formula(self, row: int, col: int, formula: str, cell_format: Any = None, value: Any = 0) -> Any:
        """Writes a formula whose result is a number in fewer steps; formulas of ours use old functions only."""
        if type(value) is str or cell_format is None:
            return super().write_formula(row, col, formula, cell_format, value)
        self.reach(row, col)
        words = self._escape_data(formula.removeprefix("="))
        look = cell_format._get_xf_index()
        self.table[row][col] = f'{_BEGIN[col]}{row + 1}" s="{look}"><f>{words}</f><v>{value}</v></c>'
        return 0

    def draw(self, box: Box) -> None:
        """Draws a box; the sheet's boxes stand in a part of their own."""
        self.shapes.append(box)

    def _prepare_shape(self, index: int, drawing_id: int) -> None:
        if index == 0:
            self.drawing = Shapes(self, self.shapes)
            self.external_drawing_links.append(["/drawing", f"../drawings/drawing{drawing_id}.xml", None])

    def _get_range_data(self, row_start: int, col_start: int, row_end: int, col_end: int) -> list[Any]:
        # What a chart keeps of the cells it shows.
        area = product(range(row_start, row_end + 1), range(col_start, col_end + 1))
        return [self._charted(self.table.get(row, {}).get(column)) for row, column in area]

    def _charted(self, cell: Any) -> Any:
        if type(cell) is not str:
            return cell if cell is None else cell.value
        value = cell.partition("<v>")[2].partition("<")[0]
        return self.str_table.texts[int(value)] if ' t="s"' in cell else value

    def _write_rows(self) -> None:
        write, table, info = self.fh.write, self.table, self.row_info
        for row in range(self.dim_rowmin, self.dim_rowmax + 1):
            cells = table.get(row)
            if cells:
                write(f'<row r="{row + 1}"{self._height(info[row].height) if row in info else ""}>')
                try:
                    write("".join([cells[column] for column in sorted(cells)]))
                except TypeError:  # cells of the library's own kinds are among them
                    for column in sorted(cells):
                        self._write_cell(row, column, cells[column])
                write("</row>")
            elif row in info:
                write(f'<row r="{row + 1}"{self._height(info[row].height)}/>')

    def _height(self, pixels: int) -> str:
        if pixels == self.default_row_height:
            return ""
        found = _HEIGHTS.get(pixels)
        if found is None:
            found = _HEIGHTS[pixels] = f' ht="{pixels * 0.75:.16g}" customHeight="1"'
        return found

    def _write_merge_cells(self) -> None:
        if self.merge:
            names = [
                f'<mergeCell ref="{_BEGIN[left][6:]}{top + 1}:{_BEGIN[right][6:]}{bottom + 1}"/>'
                for top, left, bottom, right in self.merge
            ]
            self.fh.write(f'<mergeCells count="{len(names)}">{"".join(names)}</mergeCells>')

    def _write_cell(self, row: int, col: int, cell: Any) -> None:
        if type(cell) is str:
            self.fh.write(cell)
        else:
            super()._write_cell(row, col, cell)
