"""Text tables: comma, semicolon, tab or bar between the fields; every cell is text."""

from __future__ import annotations

import csv
import io
import os
import re
from collections import Counter
from collections.abc import Iterator
from functools import cache

from pipeline.reading.answers import answer
from pipeline.reading.book import Book, Cell, Sheet, UnreadableFileError
from pipeline.reading.limits import Budget, refuse
from pipeline.reading.text_values import printable, text_cell

SEPARATORS = {",": "comma", ";": "semicolon", "\t": "tab", "|": "bar"}
_SAMPLE_LINES = 80
_SAMPLE = 65_536
_TABLE_NAMES = (".csv", ".tsv", ".tab", ".psv")
_SEP_LINE = re.compile(r'\A"?sep=(.)"?[ \t]*(?:\r\n|\r|\n|\Z)', re.IGNORECASE)


def read_text(text: str, notes: tuple[str, ...], path: str, budget: Budget) -> Book:
    """Cells of a text table, its one sheet called ''.

    A line `sep=;` in front tells the separator and is not counted as a row, as spreadsheet programs
    do. Raises UnreadableFileError for a text without a table and for a quote that is never closed.
    """
    stated = _SEP_LINE.match(text)
    if stated:
        text, separator = text[stated.end() :], stated[1]
        notes = (*notes, "The first line tells the separator; rows are counted from the line after it.")
    else:
        separator = _separator(text, path)
    cells = tuple(_cells(_with_ditto_marks_quoted(text, separator), separator, budget))
    return Book("tsv" if separator == "\t" else "csv", (Sheet("", cells),), notes)


def _cells(text: str, separator: str, budget: Budget) -> Iterator[Cell]:
    for row, fields in enumerate(_rows(text, separator, budget), 1):
        yield from _row_cells(row, fields, budget)


def _rows(text: str, separator: str, budget: Budget) -> list[list[str]]:
    """The fields of every row; a quote that is never closed is refused, as it swallows the rows after it."""
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=separator, strict=True)
    rows: list[list[str]] = []
    line, usual, doubtful = 1, 0, 0
    try:
        for fields in reader:
            if reader.line_num > line and any("\n" in f or "\r" in f for f in fields):
                doubtful = doubtful or line * _may_have_swallowed(fields, separator, usual)
            usual = max(usual, len(fields))
            budget.take_elements(len(fields))
            rows.append(fields)
            line = reader.line_num + 1
    except csv.Error as e:
        trimmed = _without_spaces_after_quotes(text, separator) if "expected after" in str(e) else text
        if trimmed != text:
            return _rows(trimmed, separator, budget)
        raise _broken(text, line, str(e), separator) from e
    if doubtful and (_uneven(rows) or any(_holds_rows(fields, separator, rows) for fields in rows)):
        raise _unclosed(doubtful)
    return rows


def _with_ditto_marks_quoted(text: str, separator: str) -> str:
    """The text with each field that is nothing but a quotation mark, which says `the same as above`, as a quoted one.

    Only where no other field begins with a quotation mark, and all rows are then of equal length.
    """
    lines = [line.split(separator) for line in re.split(r"\r\n|\r|\n", text) if separator in line]
    fields = [f for line in lines for f in line if f.startswith('"')]
    if not fields or any(f != '"' for f in fields) or len({len(line) for line in lines}) > 1:
        return text
    s = re.escape(separator)
    return re.sub(rf'(?:(?<=[{s}\r\n])|\A)"(?=[{s}\r\n]|\Z)', '""""', text)


def _without_spaces_after_quotes(text: str, separator: str) -> str:
    """The text without blanks between a closing quote and the next separator or line end."""
    s = re.escape(separator)
    field = re.compile(rf'("(?:[^"]|"")*")[ \t]*(?={s}|[\r\n]|\Z)|[^{s}\r\n]+')
    return field.sub(lambda m: m[1] or m[0], text)


def _row_cells(row: int, fields: list[str], budget: Budget) -> Iterator[Cell]:
    for column, field in enumerate(fields, 1):
        if field and (cell := text_cell(row, column, field)) is not None:
            budget.take_cell(row, column)
            yield cell


def _may_have_swallowed(fields: list[str], separator: str, usual: int) -> bool:
    """Whether a line inside a quoted field has as many separators as a row: a closing quote may be missing."""
    return usual > 2 and any(part.count(separator) >= usual - 1 for f in fields for part in _inner_lines(f))


def _inner_lines(field: str) -> list[str]:
    return re.split(r"\r\n|\r|\n", field)[1:-1]


def _uneven(rows: list[list[str]]) -> bool:
    """Whether rows differ in length; titles and blank lines aside. A strict reader that finds them even is right."""
    widths = Counter(len(r) for r in rows if len(r) > 1)
    return len(widths) > 1


def _holds_rows(fields: list[str], separator: str, rows: list[list[str]]) -> bool:
    """Whether a line inside a field is plainly a row of the table: it starts as one does, or has no blank behind a separator."""
    width = max(len(r) for r in rows)
    firsts = {r[0].strip() for r in rows} - {""}
    inner = [part.split(separator) for f in fields for part in _inner_lines(f)]
    alike = [pieces for pieces in inner if len(pieces) == width]
    return any(pieces[0].strip() in firsts or not any(p.startswith(" ") for p in pieces[1:]) for pieces in alike)


def _broken(text: str, line: int, what: str, separator: str) -> UnreadableFileError:
    """Answer for a text that is no table by the rules of quoting."""
    if "field larger" in what:
        return refuse(
            f"a field of more than {csv.field_size_limit():,} characters (line {line:,}; perhaps a quote is not closed)"
        )
    if "unexpected end" in what:
        return _unclosed(line)
    shown = printable((text.splitlines() or [""])[line - 1 : line][0][:80]) if line <= len(text.splitlines()) else ""
    return UnreadableFileError(
        f"Line {line:,} cannot be split into fields, because a quotation mark stands at an odd place: {shown}",
        f"In line {line:,}, put text that holds quotation marks between quotation marks and double each one inside, "
        f"or use the inch mark ″ or the word in; then send the file again.",
    )


def _unclosed(line: int) -> UnreadableFileError:
    return UnreadableFileError(
        f"A quotation mark that opens in line {line:,} is never closed, so the rows after it cannot be told apart.",
        f"Close the quotation mark in line {line:,}, or save the table as .xlsx, and send it again.",
    )


def _separator(text: str, path: str) -> str:
    """The separator that splits the headings best, and where none is known, the most lines alike."""
    lines = text[:_SAMPLE].splitlines(keepends=True)[:_SAMPLE_LINES]
    sample = "".join(lines)
    best, most = "", (0, 0)
    for separator in SEPARATORS:
        if separator in sample and (score := _score(sample, separator)) > most:
            best, most = separator, score
    if most == (0, 0) or (most[0] < 2 and not _is_table(sample, best, path)):
        if os.path.splitext(path)[1].lower() not in _TABLE_NAMES:
            raise answer("no table")
        return best or ","
    return best


def _score(sample: str, separator: str) -> tuple[int, int]:
    """Known headings in the best row, and rows alike x their separators."""
    reader = csv.reader(io.StringIO(sample, newline=""), delimiter=separator)
    known, widths = 0, Counter[int]()
    try:
        for fields in reader:
            if len(fields) > 1:
                widths[len(fields)] += 1
                known = max(known, len({folded for f in fields if (folded := _fold(f)) in _headings()}))
    except csv.Error:
        pass
    alike = max(((count * (width - 1)) for width, count in widths.items()), default=0)
    return (known if known > 1 else 0), alike


def _is_table(sample: str, separator: str, path: str) -> bool:
    """Most lines split alike: prose with commas in it does not."""
    rows = [r for r in csv.reader(io.StringIO(sample, newline=""), delimiter=separator) if any(r)]
    widths = Counter(len(r) for r in rows)
    width, count = max(widths.items(), key=lambda item: (item[1], item[0]), default=(0, 0))
    return width > 1 and count > 1 and count >= 0.5 * len(rows)


def _fold(heading: str) -> str:
    """A heading without its unit, case, spaces and punctuation."""
    return re.sub(r"[\W_]+", "", re.sub(r"[\[(].*", "", heading, flags=re.DOTALL).casefold())


@cache
def _headings() -> frozenset[str]:
    """Folded headings and synonyms of a survey."""
    from schemas.languages import HEADINGS
    from schemas.survey import SURVEY

    names = (name for column in SURVEY.columns for name in (column.heading, *HEADINGS[column.name]))
    return frozenset(_fold(name) for name in names)
