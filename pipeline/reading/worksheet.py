"""One worksheet of Office Open XML as a stream of cells."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass

from pipeline.reading.answers import damaged
from pipeline.reading.book import Cell, Sheet
from pipeline.reading.cell_values import SheetCells, iso_cell, number_cell
from pipeline.reading.limits import Budget, refuse
from pipeline.reading.markup import Tags, parse
from pipeline.reading.numberformats import NumberFormat
from pipeline.reading.text_values import text_cell, unescape

_TRUE = ("1", "true", "on")
_NUMBER = re.compile(
    r"\s*[+-]?(?:[0-9]+\.?[0-9]*|\.[0-9]+)(?:[eE][+-]?[0-9]+)?\s*|\s*[+-]?(?:nan|inf|infinity)\s*", re.IGNORECASE
)


@dataclass(frozen=True, slots=True)
class Context:
    """What the sheets of one workbook share."""

    strings: list[str]
    formats: tuple[NumberFormat | None, ...]
    from_1904: bool
    budget: Budget


def read_worksheet(chunks: Iterable[bytes], name: str, hidden: bool, context: Context) -> tuple[Sheet, list[str]]:
    """A sheet, and what is to be said about it. The dimension that the sheet states is not trusted."""
    scan = _Scan(name, context)
    parse(chunks, scan.start, scan.end, scan.text)
    return scan.found.sheet(hidden)


class _Scan:
    """Handlers of one sheet's XML. Source: ISO/IEC 29500-1 18.3.1."""

    def __init__(self, name: str, context: Context) -> None:
        self.found = SheetCells(name, context.budget)
        self._context = context
        self._row = 0
        self._column = 0
        self._at = (0, 0)
        self._type = ""
        self._style = ""
        self._formula = False
        self._value: str | None = None
        self._pieces: list[str] | None = None
        self._length = 0
        self._inline: list[str] | None = None
        self._phonetic = False
        self._letters: dict[str, int] = {}
        self._in_cell = False
        self._starts = Tags(
            row=self._start_row, c=self._start_cell, v=self._start_value, f=self._start_formula, t=self._start_text,
            rPh=self._start_phonetic, mergeCell=self._start_merge, col=self._start_column, **{"is": self._start_inline},
        )  # fmt: skip
        self._ends = Tags(c=self._end_cell, v=self._end_value, t=self._end_text, rPh=self._end_phonetic)

    def start(self, tag: str, attributes: dict[str, str]) -> None:
        handler = self._starts[tag]
        if handler is not None:
            handler(attributes)

    def end(self, tag: str) -> None:
        handler = self._ends[tag]
        if handler is not None:
            handler()

    def text(self, data: str) -> None:
        if self._pieces is not None:
            self._pieces.append(data)
            self._length += len(data)
            most = self._context.budget.limits.text
            if self._length > most:
                raise refuse(f"a cell of more than {most:,} characters")

    def _start_row(self, attributes: dict[str, str]) -> None:
        stated = attributes.get("r")
        self._row = self._whole(stated) if stated else self._row + 1
        self._column = 0
        if attributes.get("hidden") in _TRUE or attributes.get("ht") == "0":
            self.found.hidden_rows.add(self._row)

    def _start_cell(self, attributes: dict[str, str]) -> None:
        stated = attributes.get("r")
        if stated:
            self._at = self._place(stated)
            self._column = self._at[1]
        else:
            self._column += 1
            self._at = (self._row, self._column)
        self._type = attributes.get("t", "n")
        self._style = attributes.get("s", "")
        self._formula = False
        self._value = None
        self._inline = None
        self._in_cell = True
        self._context.budget.take_elements(1)

    def _start_formula(self, attributes: dict[str, str]) -> None:
        self._formula = self._in_cell

    def _start_value(self, attributes: dict[str, str]) -> None:
        if self._in_cell:
            self._pieces, self._length = [], 0

    def _end_value(self) -> None:
        if self._pieces is not None:
            self._value = "".join(self._pieces)
            self._pieces = None

    def _start_inline(self, attributes: dict[str, str]) -> None:
        self._inline = []

    def _start_text(self, attributes: dict[str, str]) -> None:
        if self._inline is not None and not self._phonetic:
            self._pieces, self._length = [], sum(map(len, self._inline))

    def _end_text(self) -> None:
        if self._inline is not None and self._pieces is not None:
            self._inline.append("".join(self._pieces))
            self._pieces = None

    def _start_phonetic(self, attributes: dict[str, str]) -> None:
        self._phonetic = True

    def _end_phonetic(self) -> None:
        self._phonetic = False

    def _start_merge(self, attributes: dict[str, str]) -> None:
        first, _, last = attributes.get("ref", "").partition(":")
        if last:
            self.found.merge(*self._place(first), *self._place(last))

    def _start_column(self, attributes: dict[str, str]) -> None:
        if attributes.get("hidden") in _TRUE:
            self.found.hide_columns(self._whole(attributes.get("min", "")), self._whole(attributes.get("max", "")))

    def _end_cell(self) -> None:
        self._in_cell = False
        row, column = self._at
        cell = self._cell(row, column)
        if cell is not None:
            self.found.add(cell)

    def _cell(self, row: int, column: int) -> Cell | None:
        """The cell that has just ended; None where it is blank."""
        if self._inline is not None and self._value is None:
            return text_cell(row, column, unescape("".join(self._inline)), self._text_unit())
        value, kind = self._value, self._type
        if value is None or (value == "" and kind != "str"):
            return Cell(row, column, "no_result", None) if self._formula else None
        if kind == "s":
            return text_cell(row, column, self._string(value, row, column), self._text_unit())
        if kind == "n":
            return self._number(row, column, value)
        if kind == "str" or kind == "inlineStr":
            return text_cell(row, column, unescape(value), self._text_unit())
        if kind == "b":
            return Cell(row, column, "bool", value.strip().lower() in _TRUE)
        if kind == "e":
            return Cell(row, column, "error", value.strip())
        if kind == "d":
            return iso_cell(row, column, value.strip())
        return text_cell(row, column, unescape(value))

    def _number(self, row: int, column: int, value: str) -> Cell | None:
        if _NUMBER.fullmatch(value) is None:
            return text_cell(row, column, value)
        try:
            number: int | float = int(value) if len(value) < 16 else float(value)
        except ValueError:
            number = float(value)
        return number_cell(row, column, number, self._format(), self._context.from_1904)

    def _string(self, value: str, row: int, column: int) -> str:
        try:
            index = int(value)
            if index >= 0:
                return self._context.strings[index]
        except (ValueError, IndexError):
            pass
        raise damaged(f"the text of a cell in row {row:,} of sheet “{self.found.name}” is missing")

    def _format(self) -> NumberFormat | None:
        formats = self._context.formats
        if not self._style or not formats:
            return None
        index = self._whole(self._style)
        return formats[index] if index < len(formats) else None

    def _text_unit(self) -> str:
        form = self._format() if self._style else None
        return form.text_unit if form is not None else ""

    def _whole(self, text: str) -> int:
        try:
            return int(text)
        except ValueError:
            raise damaged(f"“{text[:20]}” stands where a number should in sheet “{self.found.name}”") from None

    def _place(self, address: str) -> tuple[int, int]:
        """Row and column, 1-based, of an address such as `C7`."""
        letters = address.rstrip("0123456789")
        column = self._letters.get(letters)
        if column is None:
            column = self._letters[letters] = _column(letters)
        digits = address[len(letters) :]
        if not column or not digits or len(digits) > 9:
            raise damaged(f"“{address[:20]}” stands where a cell's address should in sheet “{self.found.name}”")
        return int(digits), column


def _column(letters: str) -> int:
    """Number of a column from its letters; 0 where they are none. Dollar signs are passed over."""
    number = 0
    for letter in letters.replace("$", "").upper():
        if not "A" <= letter <= "Z" or number > 1_000_000:
            return 0
        number = number * 26 + ord(letter) - 64
    return number
