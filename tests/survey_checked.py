"""One survey by itself, read and held to the survey's model: what the run does with all of them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from pipeline.intake.query import Query
from pipeline.intake.survey.check import read_file, read_hashed_file
from pipeline.intake.survey.gate import check_rows
from pipeline.intake.survey.survey_row import SurveyRow
from pipeline.intake.taken import Taken, refused
from pipeline.reading.book import Book, UnreadableFileError


@dataclass(frozen=True)
class FileResult:
    """One survey file, read and checked."""

    rows: tuple[SurveyRow, ...]
    queries: tuple[Query, ...]
    notes: tuple[str, ...] = ()


def check_path(path: str, file: str, policy: Mapping[str, Any]) -> FileResult:
    """All faults of a file in one go; `policy` is every setting in SI."""
    try:
        return _checked(read_hashed_file(path, file), policy)
    except UnreadableFileError as error:
        return _checked(refused(file, error), policy)


def check_book(book: Book, file: str, policy: Mapping[str, Any]) -> FileResult:
    """The same of a book that is read already."""
    return _checked(read_file(book, file), policy)


def _checked(taken: Taken, policy: Mapping[str, Any]) -> FileResult:
    checked = check_rows(taken.rows, policy)
    queries = sorted((*taken.queries, *checked.queries), key=lambda q: q.order)
    return FileResult(checked.rows, tuple(queries), taken.notes)
