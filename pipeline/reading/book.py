"""What a reader hands on: the cells of a file, sheet by sheet."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

CellKind = Literal["text", "number", "date", "bool", "error", "no_result"]


@dataclass(frozen=True, slots=True)
class Cell:
    """One cell that is not blank.

    `value` is str for text and errors (`#N/A`), float or int for numbers, bool, an ISO date string
    for dates, None for a formula without a stored result. `shown_unit` is a unit that the cell's
    number format shows (`0" mm"`), `shown` the text that a person saw where it differs from the
    value (a date's display, say); both may be ''.
    """

    row: int
    column: int
    kind: CellKind
    value: str | float | int | bool | None
    shown_unit: str = ""
    shown: str = ""

    @property
    def address(self) -> str:
        """The cell's address, `C7`."""
        return address(self.row, self.column)


def address(row: int, column: int) -> str:
    """Spreadsheet address of a 1-based row and column, `C7`."""
    letters = ""
    while column > 0:
        column, rest = divmod(column - 1, 26)
        letters = chr(65 + rest) + letters
    return f"{letters}{row}"


def place(cell: str) -> tuple[int, int]:
    """1-based row and column of a spreadsheet address, the inverse of `address`; zeros for what is none."""
    letters = cell.rstrip("0123456789")
    digits = cell[len(letters) :]
    if not (letters and digits and letters.isascii() and letters.isalpha() and letters.isupper()):
        return 0, 0
    column = 0
    for letter in letters:
        column = column * 26 + ord(letter) - 64
    return int(digits), column


@dataclass(frozen=True, slots=True)
class Sheet:
    """One sheet: its cells in row order (blank cells left out) and what is said about it."""

    name: str  # '' for text files
    cells: tuple[Cell, ...]
    hidden: bool = False
    hidden_rows: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class Book:
    """One file, read: its format by content (`xlsx`, `csv`, ...), its sheets, and our own custom properties of it."""

    format: str
    sheets: tuple[Sheet, ...]
    notes: tuple[str, ...] = ()
    properties: Mapping[str, str] = field(default_factory=dict)


class UnreadableFileError(Exception):
    """A file that cannot be read; `reason` and `remedy` are sentences for its sender.

    `lasting` where the bytes themselves say so; an accident (time, memory, a lost process, a permission) may not come again.
    """

    def __init__(self, reason: str, remedy: str, lasting: bool = True) -> None:
        super().__init__(f"{reason} {remedy}")
        self.reason = reason
        self.remedy = remedy
        self.lasting = lasting
