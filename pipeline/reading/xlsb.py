"""Binary Office Open XML workbooks, record by record, so that errors, dates and formats are seen."""

from __future__ import annotations

import struct
from collections.abc import Iterable, Iterator

from pipeline.reading.answers import answer, damaged
from pipeline.reading.book import Book, Cell, Sheet
from pipeline.reading.cell_values import SheetCells, number_cell
from pipeline.reading.limits import Budget, refuse
from pipeline.reading.numberformats import BUILT_IN, NumberFormat, number_format
from pipeline.reading.ooxml_parts import Package
from pipeline.reading.text_values import printable, text_cell
from pipeline.reading.workbook import Link, links

ROW, BLANK, ERROR, BOOL, TEXT, SHARED = 0, 1, 3, 4, 6, 7
RK, REAL = 2, 5
FORMULA_TEXT, FORMULA_NUMBER, FORMULA_BOOL, FORMULA_ERROR = 8, 9, 10, 11
SHORT_BLANK, SHORT_RK, SHORT_ERROR, SHORT_BOOL, SHORT_REAL, SHORT_TEXT, SHORT_SHARED = range(12, 19)
STRING, FORMAT, XF, COLUMN, RICH_TEXT = 19, 44, 47, 60, 62
WORKBOOK_PROPERTIES, SHEET, MERGE = 153, 156, 176
CELL_XFS, CELL_XFS_END = 617, 618
"""Record numbers. Source: MS-XLSB 2.3.2."""

ERRORS = {
    0: "#NULL!", 7: "#DIV/0!", 15: "#VALUE!", 23: "#REF!", 29: "#NAME?", 36: "#NUM!", 42: "#N/A", 43: "#GETTING_DATA",
}  # fmt: skip
"""Error codes. Source: MS-XLSB 2.5.97.2, BErr."""

_LONG = {
    SHORT_BLANK: BLANK, SHORT_RK: RK, SHORT_ERROR: ERROR, SHORT_BOOL: BOOL, SHORT_REAL: REAL, SHORT_TEXT: TEXT,
    SHORT_SHARED: SHARED,
}  # fmt: skip
_U32 = struct.Struct("<I")
_DOUBLE = struct.Struct("<d")
_MOST_RECORD = 1 << 24


def read_xlsb(package: Package, part: str) -> Book:
    """Cells of every worksheet, hidden ones too."""
    related = links(package, part)
    sheets_stated, from_1904 = _contents(package, part)
    if len(sheets_stated) > package.budget.limits.sheets:
        raise refuse(f"more than {package.budget.limits.sheets:,} sheets")
    strings = _strings(package, related)
    formats = _formats(package, related)
    sheets: list[Sheet] = []
    notes: list[str] = []
    for name, relation, hidden in sheets_stated:
        link = related.get(relation)
        member = package.find(link.target) if link else None
        if link is not None and link.kind != "worksheet":
            continue
        if member is None:
            raise damaged(f"its sheet “{name}” is missing")
        scan = _SheetScan(SheetCells(name, package.budget), strings, formats, from_1904, package.budget)
        for number, data in _records(package.chunks(member)):
            scan.take(number, data)
        sheet, remarks = scan.found.sheet(hidden)
        sheets.append(sheet)
        notes.extend(remarks)
    if not sheets:
        raise answer("no sheet")
    return Book("xlsb", tuple(sheets), tuple(notes))


def _records(chunks: Iterable[bytes]) -> Iterator[tuple[int, bytes]]:
    """(number, content) of each record of a part. Source: MS-XLSB 2.1.4."""
    buffer, at = b"", 0
    for chunk in chunks:
        buffer, at = buffer[at:] + chunk, 0
        while (record := _record(buffer, at)) is not None:
            number, start, at = record
            yield number, buffer[start:at]
    if at < len(buffer):
        raise answer("damaged")


def _record(buffer: bytes, at: int) -> tuple[int, int, int] | None:
    """Number, start and end of the record at a place; None where the buffer ends within it."""
    size = len(buffer)
    if at >= size:
        return None
    number = buffer[at]
    at += 1
    if number & 0x80:
        if at >= size:
            return None
        number = (number & 0x7F) | (buffer[at] & 0x7F) << 7
        at += 1
    length = 0
    for shift in (0, 7, 14, 21):
        if at >= size:
            return None
        byte = buffer[at]
        at += 1
        length |= (byte & 0x7F) << shift
        if not byte & 0x80:
            break
    if length > _MOST_RECORD:
        raise answer("damaged")
    return (number, at, at + length) if at + length <= size else None


def _wide(data: bytes, at: int, most: int = 1 << 20) -> tuple[str, int]:
    """A counted string of 16-bit characters, and where it ends; a null string is ''."""
    (count,) = _U32.unpack_from(data, at)
    if count == 0xFFFFFFFF:
        return "", at + 4
    end = at + 4 + 2 * count
    if end > len(data) or count > most:
        raise answer("damaged")
    return data[at + 4 : end].decode("utf-16-le", "replace"), end


def _contents(package: Package, part: str) -> tuple[list[tuple[str, str, bool]], bool]:
    """(name, relationship, hidden) of each sheet, and whether dates count from 1904."""
    member = package.find(part)
    if member is None:
        raise answer("damaged")
    found: list[tuple[str, str, bool]] = []
    from_1904 = False
    for number, data in _records(package.chunks(member)):
        if number == SHEET:
            relation, at = _wide(data, 8)
            found.append((printable(_wide(data, at)[0]), relation, data[0] != 0))
        elif number == WORKBOOK_PROPERTIES:
            from_1904 = bool(data[0] & 1)
    return found, from_1904


def _part(package: Package, related: dict[str, Link], kind: str) -> Iterator[tuple[int, bytes]]:
    """Records of the part of a kind; none where it is missing."""
    for link in related.values():
        member = package.find(link.target) if link.kind == kind else None
        if member is not None:
            yield from _records(package.chunks(member))
            return


def _strings(package: Package, related: dict[str, Link]) -> list[str]:
    limits = package.budget.limits
    strings: list[str] = []
    for number, data in _part(package, related, "sharedStrings"):
        if number == STRING:
            strings.append(_wide(data, 1, limits.text)[0])
            if len(strings) > limits.strings:
                raise refuse(f"more than {limits.strings:,} different texts")
    return strings


def _formats(package: Package, related: dict[str, Link]) -> list[NumberFormat | None]:
    """Number format of each cell style."""
    codes: dict[int, str] = {}
    used: list[int] = []
    inside = False
    for number, data in _part(package, related, "styles"):
        if number == FORMAT:
            codes[int.from_bytes(data[:2], "little")] = _wide(data, 2)[0]
        elif number in (CELL_XFS, CELL_XFS_END):
            inside = number == CELL_XFS
        elif number == XF and inside:
            used.append(int.from_bytes(data[2:4], "little"))
    return [number_format(codes.get(i, BUILT_IN.get(i, ""))) for i in used]


class _SheetScan:
    """Takes the records of one sheet. Source: MS-XLSB 2.4, the records named Brt... of each number."""

    def __init__(
        self, found: SheetCells, strings: list[str], formats: list[NumberFormat | None], from_1904: bool, budget: Budget
    ) -> None:
        self.found = found
        self._strings = strings
        self._formats = formats
        self._from_1904 = from_1904
        self._budget = budget
        self._row = 0
        self._column = 0

    def take(self, number: int, data: bytes) -> None:
        if (number <= SHORT_SHARED and number != ROW) or number == RICH_TEXT:
            self._take_cell(number, data)
        elif number == ROW:
            self._row = _U32.unpack_from(data)[0] + 1
            self._column = 0
            if data[11] & 0x10:
                self.found.hidden_rows.add(self._row)
        elif number == MERGE:
            top, bottom, left, right = struct.unpack_from("<4I", data)
            self.found.merge(top + 1, left + 1, bottom + 1, right + 1)
        elif number == COLUMN and len(data) >= 18 and data[16] & 1:
            first, last = struct.unpack_from("<2I", data)
            self.found.hide_columns(first + 1, last + 1)

    def _take_cell(self, number: int, data: bytes) -> None:
        self._budget.take_elements(1)
        if number in _LONG:  # a short cell stands right of the one before it
            number, self._column, style_at = _LONG[number], self._column + 1, 0
        else:
            self._column, style_at = _U32.unpack_from(data)[0] + 1, 4
        style = int.from_bytes(data[style_at : style_at + 3], "little")
        form = self._formats[style] if style < len(self._formats) else None
        cell = self._cell(number, data, style_at + 4, form)
        if cell is not None:
            self.found.add(cell)

    def _cell(self, number: int, data: bytes, at: int, form: NumberFormat | None) -> Cell | None:
        """The cell of a record; its value stands at a place. None where it is blank."""
        row, column = self._row, self._column
        if number == BLANK:
            return None
        if number in (RK, REAL, FORMULA_NUMBER):
            value = _rk(data, at) if number == RK else _DOUBLE.unpack_from(data, at)[0]
            return number_cell(row, column, _whole(value), form, self._from_1904)
        if number in (ERROR, FORMULA_ERROR):
            return Cell(row, column, "error", ERRORS.get(data[at], "#VALUE!"))
        if number in (BOOL, FORMULA_BOOL):
            return Cell(row, column, "bool", data[at] != 0)
        return text_cell(row, column, self._text(number, data, at), form.text_unit if form is not None else "")

    def _text(self, number: int, data: bytes, at: int) -> str:
        if number == SHARED:
            index = _U32.unpack_from(data, at)[0]
            if index >= len(self._strings):
                raise damaged(f"the text of a cell in row {self._row:,} of sheet “{self.found.name}” is missing")
            return self._strings[index]
        return _wide(data, at + 1 if number == RICH_TEXT else at, self._budget.limits.text)[0]


def _rk(data: bytes, at: int) -> float:
    """A number packed into 30 bits. Source: MS-XLSB 2.5.122, RkNumber."""
    (packed,) = _U32.unpack_from(data, at)
    if packed & 2:
        value: float = struct.unpack_from("<i", data, at)[0] >> 2
    else:
        value = _DOUBLE.unpack(b"\x00\x00\x00\x00" + _U32.pack(packed & 0xFFFFFFFC))[0]
    return value / 100 if packed & 1 else value


def _whole(value: float) -> int | float:
    """An int where the number is whole, as in the other formats."""
    return int(value) if value == value and abs(value) < 1e15 and value == int(value) else value
