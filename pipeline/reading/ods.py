"""OpenDocument spreadsheets, zipped and flat: repeats counted, and only cells with content kept."""

from __future__ import annotations

from collections.abc import Iterable

from pipeline.reading.answers import answer
from pipeline.reading.book import Book, Cell, Sheet
from pipeline.reading.cell_values import SheetCells
from pipeline.reading.limits import Budget, refuse
from pipeline.reading.markup import Tags, local, parse
from pipeline.reading.ods_cells import ods_cell, paragraph
from pipeline.reading.ooxml_parts import Package

_CHUNK = 1 << 16
_NOT_SHOWN = frozenset(
    ("annotation", "tracked-changes", "shapes", "object", "frame", "custom-shape", "g", "dde-links", "ruby-text")
)


def read_ods(package: Package) -> Book:
    """Cells of every sheet of a zipped OpenDocument spreadsheet."""
    manifest = package.find("META-INF/manifest.xml")
    if manifest is not None and b"encryption-data" in package.read(manifest):
        raise answer("password")
    content = package.find("content.xml")
    if content is None:
        raise answer("damaged")
    return _book("ods", package.chunks(content), package.budget)


def read_fods(data: bytes, budget: Budget) -> Book:
    """Cells of every sheet of a flat OpenDocument spreadsheet."""
    return _book("fods", (data[i : i + _CHUNK] for i in range(0, len(data), _CHUNK)), budget)


def _book(form: str, chunks: Iterable[bytes], budget: Budget) -> Book:
    scan = _Scan(budget)
    parse(chunks, scan.start, scan.end, scan.text)
    if not scan.sheets:
        raise answer("no sheet")
    return Book(form, tuple(scan.sheets), tuple(scan.notes))


class _Scan:
    """Handlers of a content part. Source: OpenDocument 1.3, part 3, chapters 9 and 19.

    A row and a cell may be repeated; both are written out only where they hold something.
    """

    def __init__(self, budget: Budget) -> None:
        self.sheets: list[Sheet] = []
        self.notes: list[str] = []
        self._budget = budget
        self._hidden_styles: set[str] = set()
        self._style = ""
        self._found: SheetCells | None = None
        self._sheet_hidden = False
        self._row = 0
        self._row_repeat = 1
        self._row_hidden = False
        self._row_cells: list[Cell] = []
        self._column = 0
        self._hidden_column_end = 0
        self._cell: dict[str, str] | None = None
        self._covered = False
        self._paragraphs: list[list[str]] = []
        self._in_text = 0
        self._length = 0
        self._skip = 0
        self._starts = Tags(
            {
                "style": self._start_style, "table-properties": self._table_properties, "table": self._start_table,
                "table-column": self._start_column, "table-row": self._start_row, "table-cell": self._start_cell,
                "covered-table-cell": self._start_covered, "p": self._start_paragraph, "s": self._spaces,
                "tab": self._tab, "line-break": self._line_break,
            }
        )  # fmt: skip
        self._ends = Tags(
            {
                "table": self._end_table, "table-row": self._end_row, "table-cell": self._end_cell,
                "covered-table-cell": self._end_cell, "p": self._end_paragraph,
            }
        )  # fmt: skip

    def start(self, tag: str, attributes: dict[str, str]) -> None:
        if self._skip or (self._found is not None and local(tag) in _NOT_SHOWN):
            self._skip += 1
            return
        handler = self._starts[tag]
        if handler is not None:
            handler({local(k): v for k, v in attributes.items() if k != "calcext:value-type"} | _calc(attributes))

    def end(self, tag: str) -> None:
        if self._skip:
            self._skip -= 1
            return
        handler = self._ends[tag]
        if handler is not None:
            handler()

    def text(self, data: str) -> None:
        if self._in_text and not self._skip:
            self._paragraphs[-1].append(data)
            self._length += len(data)
            if self._length > self._budget.limits.text:
                raise refuse(f"a cell of more than {self._budget.limits.text:,} characters")

    def _start_style(self, attributes: dict[str, str]) -> None:
        self._style = attributes.get("name", "") if attributes.get("family") == "table" else ""

    def _table_properties(self, attributes: dict[str, str]) -> None:
        if attributes.get("display") == "false" and self._style:
            self._hidden_styles.add(self._style)

    def _start_table(self, attributes: dict[str, str]) -> None:
        if len(self.sheets) >= self._budget.limits.sheets:
            raise refuse(f"more than {self._budget.limits.sheets:,} sheets")
        self._found = SheetCells(attributes.get("name", ""), self._budget)
        self._sheet_hidden = attributes.get("style-name", "") in self._hidden_styles
        self._row = self._hidden_column_end = 0

    def _end_table(self) -> None:
        if self._found is not None:
            sheet, notes = self._found.sheet(self._sheet_hidden)
            self.sheets.append(sheet)
            self.notes.extend(notes)
            self._found = None

    def _start_column(self, attributes: dict[str, str]) -> None:
        first = self._hidden_column_end + 1
        self._hidden_column_end += _repeat(attributes, "number-columns-repeated")
        if self._found is not None and attributes.get("visibility") in ("collapse", "filter"):
            self._found.hide_columns(first, self._hidden_column_end)

    def _start_row(self, attributes: dict[str, str]) -> None:
        self._row_repeat = _repeat(attributes, "number-rows-repeated")
        self._row_cells = []
        self._column = 0
        self._row_hidden = attributes.get("visibility") in ("collapse", "filter")

    def _end_row(self) -> None:
        if self._found is not None and self._row_cells:
            last = self._row + self._row_repeat
            self._budget.allow_repeat(last, self._row_cells[-1].column, self._row_repeat * len(self._row_cells))
            for row in range(self._row + 1, self._row + self._row_repeat + 1):
                for c in self._row_cells:
                    self._found.add(Cell(row, c.column, c.kind, c.value, c.shown_unit, c.shown))
                if self._row_hidden:
                    self._found.hidden_rows.add(row)
        self._row += self._row_repeat
        self._row_cells = []

    def _start_cell(self, attributes: dict[str, str]) -> None:
        self._cell, self._covered = attributes, False
        self._paragraphs, self._length = [], 0
        self._budget.take_elements(1)

    def _start_covered(self, attributes: dict[str, str]) -> None:
        self._start_cell(attributes)
        self._covered = True

    def _start_paragraph(self, attributes: dict[str, str]) -> None:
        if self._cell is not None:
            self._paragraphs.append([])
            self._in_text += 1

    def _end_paragraph(self) -> None:
        self._in_text = max(0, self._in_text - 1)

    def _spaces(self, attributes: dict[str, str]) -> None:
        self.text("\x01" * min(_repeat(attributes, "c"), self._budget.limits.text + 1))

    def _tab(self, attributes: dict[str, str]) -> None:
        self.text("\x02")

    def _line_break(self, attributes: dict[str, str]) -> None:
        self.text("\x03")

    def _end_cell(self) -> None:
        attributes, self._cell = self._cell, None
        if attributes is None:
            return
        repeat = _repeat(attributes, "number-columns-repeated")
        cell = None if self._covered else ods_cell(attributes, "\n".join(map(paragraph, self._paragraphs)))
        if cell is not None:
            self._budget.allow_repeat(1, self._column + repeat, repeat)
            for column in range(self._column + 1, self._column + repeat + 1):
                self._budget.take_elements(1)
                self._row_cells.append(Cell(1, column, cell.kind, cell.value, cell.shown_unit, cell.shown))
        self._column += repeat


def _calc(attributes: dict[str, str]) -> dict[str, str]:
    """The error mark that one office suite puts beside the standard's value type."""
    return {"error": "true"} if attributes.get("calcext:value-type") == "error" else {}


def _repeat(attributes: dict[str, str], name: str) -> int:
    text = attributes.get(name, "1")
    return max(1, int(text)) if text.isdecimal() and len(text) < 12 else 1
