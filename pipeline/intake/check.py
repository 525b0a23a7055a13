"""Cells of one survey file to rows in SI and queries to its sender."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from pipeline.intake.model import Book, FileResult, Query, UnreadableFileError


def check_book(book: Book, file: str, policy: Mapping[str, Any]) -> FileResult:
    """Every data row of `book` as a SurveyRow, and every query about it. Pure."""
    raise NotImplementedError


def check_path(path: str, file: str, policy: Mapping[str, Any]) -> FileResult:
    """Read and check one file; a file that cannot be read gives one UNREADABLE_FILE query."""
    from pipeline.intake.read import read_book

    try:
        book = read_book(path)
    except UnreadableFileError as e:
        query = Query(file, "", "", "UNREADABLE_FILE", e.reason, e.remedy, False)
        return FileResult(file, "", (), (query,))
    return check_book(book, file, policy)
