"""What is asked of the sender of a survey, and what one file came to."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, Literal

from pipeline.intake.survey.survey_row import SurveyRow
from pipeline.reading.book import place
from schemas.order import natural

Code = Literal[
    "MISSING", "UNREADABLE", "NO_UNIT", "DATE_CELL", "ERROR_CELL", "NOT_IN_LIST",
    "IMPLAUSIBLE", "DUPLICATE", "CONFLICT", "ASKED", "NO_HEADINGS", "UNREADABLE_FILE", "HEADING",
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
    record: str = ""  # the row that it is about, as that row calls itself; '' = about no row
    answer: str = ""  # of ASKED: the item, why it cannot be had, and the findings that rule it out; revisions go by it

    @property
    def order(self) -> tuple[Any, ...]:
        """Key that puts queries in natural order of site, post, file, sheet and cell."""
        who = (natural(self.site_code), natural(self.post_code))
        return (*who, natural(self.file), self.sheet, place(self.cell), self.cell, self.code, self.name, self.message)

    def is_about(self, row: SurveyRow) -> bool:
        """Whether it is about this row."""
        return (self.file, self.sheet, self.record) == (row.file, row.sheet, row.label)
