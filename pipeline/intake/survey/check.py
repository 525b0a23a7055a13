"""One survey file: its cells to rows and queries."""

from __future__ import annotations

from dataclasses import replace

from pipeline.intake.dictionary import EMPTY, Dictionary, with_sellers_headings
from pipeline.intake.field_sheet import read_field_sheet
from pipeline.intake.layout.find import find_records
from pipeline.intake.returned import identity_of
from pipeline.intake.survey.read_record import read_record
from pipeline.intake.taken import Taken
from pipeline.reading.book import Book


def read_hashed_file(path: str, file: str, seller_words: Dictionary = EMPTY) -> Taken:
    """One file with the seller's dictionary `said`, and the fingerprint of the very bytes that were read.

    Errors: UnreadableFileError.
    """
    from pipeline.reading import read_hashed

    book, content = read_hashed(path)
    return replace(read_file(book, file, seller_words), content=content)


def read_file(book: Book, file: str, seller_words: Dictionary = EMPTY) -> Taken:
    """Every record of `book`, each of its cells read by itself, and the queries of its layout; `file` is the name to show."""
    if filled_in := read_field_sheet(book, file, seller_words.words):
        sheet, asked = filled_in
        count = sum(not a.blank for a in sheet.answers)
        note = f"A field sheet of {sheet.site_code}-r{sheet.revision} that came back: {count} of {len(sheet.answers)} answered."
        returned = identity_of(book.properties)
        return Taken(file, book.format, (), tuple(asked), (*book.notes, note), returned=returned, field=sheet)
    records, queries, notes = find_records(with_sellers_headings(book, seller_words), file)
    rows = tuple(read_record(r, file, seller_words.words) for r in records)
    return Taken(file, book.format, rows, tuple(queries), tuple(notes), returned=identity_of(book.properties))
