"""One survey file: its cells to rows and queries."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from pipeline.intake.dictionary import EMPTY, Dictionary, with_sellers_headings
from pipeline.intake.field_sheet import read_field_sheet
from pipeline.intake.layout.find import find_records
from pipeline.intake.query import FileResult
from pipeline.intake.returned import identity_of
from pipeline.intake.survey.read_record import read_record
from pipeline.intake.taken import Taken, refused
from pipeline.reading.book import Book, UnreadableFileError


def read_path(path: str, file: str, said: Dictionary = EMPTY) -> Taken:
    """Read one file, with the seller's dictionary `said`; a file that cannot be read gives one UNREADABLE_FILE query."""
    try:
        return read_hashed_file(path, file, said)
    except UnreadableFileError as e:
        return refused(file, e)


def read_hashed_file(path: str, file: str, said: Dictionary = EMPTY) -> Taken:
    """The same, with the fingerprint of the very bytes that were read. Errors: UnreadableFileError."""
    from pipeline.reading import read_hashed

    book, content = read_hashed(path)
    return replace(read_file(book, file, said), content=content)


def read_file(book: Book, file: str, said: Dictionary = EMPTY) -> Taken:
    """Every record of `book`, each of its cells read by itself, and the queries of its layout; `file` is the name to show."""
    if filled_in := read_field_sheet(book, file, said.words):
        sheet, asked = filled_in
        count = sum(not a.blank for a in sheet.answers)
        note = f"A field sheet of {sheet.site_code}-r{sheet.revision} that came back: {count} of {len(sheet.answers)} answered."
        returned = identity_of(book.properties)
        return Taken(file, book.format, (), tuple(asked), (*book.notes, note), returned=returned, field=sheet)
    records, queries, notes = find_records(with_sellers_headings(book, said), file)
    rows = tuple(read_record(r, file, said.words) for r in records)
    return Taken(file, book.format, rows, tuple(queries), tuple(notes), returned=identity_of(book.properties))


def check_path(path: str, file: str, policy: Mapping[str, Any]) -> FileResult:
    """One file by itself, read and held to the survey's model, all faults in one go; `policy` is every setting in SI."""
    return _checked(read_path(path, file), policy)


def check_book(book: Book, file: str, policy: Mapping[str, Any]) -> FileResult:
    """`check_path` of a book that is read already."""
    return _checked(read_file(book, file), policy)


def _checked(taken: Taken, policy: Mapping[str, Any]) -> FileResult:
    from pipeline.intake.survey.gate import check_rows

    checked = check_rows(taken.rows, policy)
    queries = sorted((*taken.queries, *checked.queries), key=lambda q: q.order)
    return FileResult(taken.file, taken.format, checked.rows, tuple(queries), taken.notes)
