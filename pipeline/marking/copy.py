"""The sender's own workbook back: each cell in doubt filled and commented, a list in front of what to correct."""

from __future__ import annotations

import os
from collections.abc import Sequence

from pipeline.intake.query import Query
from pipeline.intake.returned import Identity
from pipeline.marking.return_names import returned_name
from pipeline.reading.book import Book, UnreadableFileError

__all__ = ["marked_copy", "returned_name"]

NO_SURVEY_BYTES, NO_SURVEY_CELLS = 5_000_000, 20_000
"""Size from which a file in which no survey was found comes back as the list alone: there is no cell to correct in it."""

OWN_FORMATS = ("xlsx", "xlsm")
"""Formats whose own file is kept and marked; the cells of others are copied to a new workbook."""


def marked_copy(
    path: str, file: str, book: Book | None, queries: Sequence[Query], own: bool = True, identity: Identity | None = None
) -> bytes:
    """The marked workbook (.xlsx) for one input file; same inputs, same bytes.

    `file` is the name to show. Without `book` the file is read here; where it cannot be, the workbook
    has only the list `To correct`. `own=False` leaves the sender's file alone and copies its cells,
    for a file that openpyxl was seen to hang on. `identity` is what the copy answers to when it comes
    back. Never raises for what is in the file.
    """
    from pipeline.intake.layout.answers import with_answers
    from pipeline.marking.new_workbook import new_copy
    from pipeline.marking.own_workbook import own_copy

    no_survey = bool(queries) and all(q.code == "NO_HEADINGS" for q in queries)
    if no_survey and book is None and _size(path) > NO_SURVEY_BYTES:
        return new_copy(file, None, queries, identity, too_large=True)
    book = _read(path) if book is None else book
    if no_survey and book is not None and sum(len(s.cells) for s in book.sheets) > NO_SURVEY_CELLS:
        return new_copy(file, book, queries, identity, too_large=True)
    if own and book is not None and book.format in OWN_FORMATS:
        try:
            return own_copy(path, file, book, queries, identity)
        except (MemoryError, KeyboardInterrupt):
            raise
        except Exception:  # openpyxl raises of every kind; the copy of the cells always works
            return new_copy(file, with_answers(book)[0], queries, identity)
    return new_copy(file, with_answers(book)[0] if book else None, queries, identity)


def _size(path: str) -> int:
    try:
        return os.stat(path).st_size
    except (OSError, ValueError):
        return 0


def _read(path: str) -> Book | None:
    from pipeline.reading import read_book

    try:
        return read_book(path)
    except UnreadableFileError:
        return None
