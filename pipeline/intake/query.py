"""What is asked of the sender of a survey, and what one file came to."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Any, Literal

from pipeline.intake.survey.survey_row import SurveyRow
from schemas.order import natural

Code = Literal[
    "MISSING", "UNREADABLE", "NO_UNIT", "DATE_CELL", "ERROR_CELL", "NOT_IN_LIST",
    "IMPLAUSIBLE", "DUPLICATE", "CONFLICT", "ASKED", "NO_HEADINGS", "UNREADABLE_FILE",
]  # fmt: skip


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
