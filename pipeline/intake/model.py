"""What intake hands on: cells of a file, rows of a survey, queries to its sender."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Any, Literal

from pipeline.intake.survey_row import SurveyRow as SurveyRow
from schemas.order import natural as natural

CellKind = Literal["text", "number", "date", "bool", "error", "no_result"]
Code = Literal[
    "MISSING", "UNREADABLE", "NO_UNIT", "DATE_CELL", "ERROR_CELL", "NOT_IN_LIST",
    "IMPLAUSIBLE", "DUPLICATE", "CONFLICT", "ASKED", "NO_HEADINGS", "UNREADABLE_FILE",
]  # fmt: skip


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


@dataclass(frozen=True, slots=True)
class Sheet:
    """One sheet: its cells in row order (blank cells left out) and what is said about it."""

    name: str  # '' for text files
    cells: tuple[Cell, ...]
    hidden: bool = False
    hidden_rows: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class Book:
    """One file, read: its format by content (`xlsx`, `csv`, ...) and sheets."""

    format: str
    sheets: tuple[Sheet, ...]
    notes: tuple[str, ...] = ()


class UnreadableFileError(Exception):
    """A file that cannot be read; `reason` and `remedy` are sentences for its sender."""

    def __init__(self, reason: str, remedy: str) -> None:
        super().__init__(f"{reason} {remedy}")
        self.reason = reason
        self.remedy = remedy


@dataclass(frozen=True, slots=True)
class Query:
    """One thing that the sender must correct or confirm; the fields of data/queries.csv."""

    file: str
    sheet: str
    cell: str
    code: Code
    message: str
    suggestion: str
    holds_row: bool
    site_code: str = ""
    post_code: str = ""
    name: str = ""

    @property
    def order(self) -> tuple[Any, ...]:
        """Key that puts queries in natural order of site, post, file, sheet and cell."""
        m = re.fullmatch(r"([A-Z]+)(\d+)", self.cell)
        place = (int(m[2]), len(m[1]), m[1]) if m else (0, 0, self.cell)
        who = (natural(self.site_code), natural(self.post_code))
        return (*who, natural(self.file), self.sheet, place, self.code, self.name, self.message)


@dataclass(frozen=True, slots=True)
class FileResult:
    """One survey file, read and checked; `file` is the name to show, relative to what was given."""

    file: str
    format: str
    rows: tuple[SurveyRow, ...]
    queries: tuple[Query, ...]
    notes: tuple[str, ...] = ()
