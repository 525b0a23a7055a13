"""Cells of one survey file to rows in SI and queries to its sender."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from pipeline.intake.query import FileResult, Query
from pipeline.intake.survey.headings import WEAK, claim
from pipeline.intake.survey.row import read_row
from pipeline.intake.survey.rows import sort_rows
from pipeline.intake.survey.spellings import nearest
from pipeline.intake.survey.survey_row import SurveyRow
from pipeline.intake.survey.tables import Table, find_tables
from pipeline.reading.book import Book, Cell, Sheet, UnreadableFileError, address, place
from schemas.survey import SURVEY

_NEEDED = tuple(c for c in SURVEY.columns if c.needed)


def check_path(path: str, file: str, policy: Mapping[str, Any]) -> FileResult:
    """Read and check one file; a file that cannot be read gives one UNREADABLE_FILE query."""
    from pipeline.reading import read_book

    try:
        book = read_book(path)
    except UnreadableFileError as e:
        query = Query(file, "", "", "UNREADABLE_FILE", e.reason, e.remedy, False)
        return FileResult(file, "", (), (query,))
    return check_book(book, file, policy)


def check_book(book: Book, file: str, policy: Mapping[str, Any]) -> FileResult:
    """Every data row of `book` as a SurveyRow in SI, and every query about it, all faults in one go.

    `policy` is every setting of schemas.policy in SI; `file` the name to show. A row that any query
    holds is marked so; what shows only across rows and files is `across.settle`'s.
    """
    rows: list[SurveyRow] = []
    queries: list[Query] = []
    notes = list(book.notes)
    headed = []
    for sheet in book.sheets:
        tables = find_tables(sheet)
        if tables:
            headed.append(sheet)
        for table in tables:
            _check_table(table, file, policy, rows, queries, notes)
        if tables:
            notes += _hidden(sheet, rows)
    if not headed:
        return FileResult(file, book.format, (), (_no_headings(book, file),), tuple(notes))
    left_out = [s.name for s in book.sheets if s.cells and s not in headed]
    if left_out:
        notes.append(f"Not read, since no row of headings stands in them: {', '.join(f'“{n}”' for n in left_out)}.")
    return FileResult(file, book.format, tuple(rows), tuple(sorted(queries, key=lambda q: q.order)), tuple(notes))


def _check_table(
    table: Table, file: str, policy: Mapping[str, Any], rows: list[SurveyRow], queries: list[Query], notes: list[str]
) -> None:
    """Add one table's rows, queries and notes."""
    where = f"Sheet “{table.sheet}”: " if table.sheet else ""
    sorted_rows = sort_rows(table)
    queries += _two_headings(table, file)
    queries += _half_known(table, file)
    for number, cells in sorted_rows.posts:
        row, found = read_row(table, number, cells, file, policy)
        rows.append(row)
        queries += found if table.sheet else [_in_text_file(q) for q in found]
    queries += [_after_total(table, file, n, cells) for n, cells in sorted_rows.after_total]
    notes += [where + s for s in sorted_rows.said]
    notes += [f"{where}the column “{_line(h)}” is carried through and not read{_since(by)}." for h, by in table.passed_over]
    unknown = [f"“{_line(h)}”" for h in table.extra.values() if h and h not in {p for p, _ in table.passed_over}]
    if unknown:
        notes.append(f"{where}columns carried through and not read: {', '.join(unknown)}.")
    notes += [f"{where}“{_line(h)}” has another unit in the row below: neither is taken." for h in table.clashing_units]
    if not sorted_rows.posts:
        notes.append(f"{where}no post stands below the headings in row {table.row}.")


def _in_text_file(query: Query) -> Query:
    """A query about a text file, whose reader may have no cell addresses to go by."""
    row, column = place(query.cell)
    return replace(query, message=f"{query.message} (Row {row}, column {column}.)") if row else query


def _since(by: str) -> str:
    return f", since “{_line(by)}” stands beside it" if by else ", since it can mean several things"


def _line(text: str) -> str:
    return " ".join(text.split())


def _two_headings(table: Table, file: str) -> list[Query]:
    """Headings that claim a column which another heading has claimed already."""
    found = []
    for name, heads in table.heads.items():
        for second in heads[1:]:
            first = heads[0]
            message = (
                f"The headings “{_line(first.text)}” ({first.address}) and “{_line(second.text)}” both mean "
                f"“{SURVEY.column(name).heading}”."
            )
            put_right = f"Keep one of them as “{SURVEY.column(name).titled}” and give the other a name of its own."
            found.append(Query(file, table.sheet, second.address, "CONFLICT", message, put_right, False, name=name))
    return found


def _half_known(table: Table, file: str) -> list[Query]:
    """Headings that would be known but for a remark in brackets, where nothing else claims the column.

    Left unsaid, the column's default would stand for what its cells say.
    """
    found = []
    for n, heading in table.extra.items():
        bare = re.sub(r"\s*[\[(].*", "", heading, flags=re.DOTALL)
        known = claim(bare) if bare and bare != heading else None
        if known and known.strength > WEAK and known.name not in table.heads:
            titled = SURVEY.column(known.name).titled
            message = f"The heading “{_line(heading)}” is not understood, so its column is not read: does it mean “{titled}”?"
            at = address(table.row, n)
            found.append(Query(file, table.sheet, at, "UNREADABLE", message, titled, False, name=known.name))
    return found


def _after_total(table: Table, file: str, number: int, cells: Mapping[int, Cell]) -> Query:
    """A row that looks like a post but stands after a total, where the survey has ended."""
    heads = table.heads.get("post_code")
    column = heads[0].column if heads else min(cells)
    message = f"Row {number} looks like a post but stands after a total: it is not read."
    put_right = "Move the row above the total if it is a post."
    return Query(file, table.sheet, address(number, column), "CONFLICT", message, put_right, False, name="post_code")


def _hidden(sheet: Sheet, rows: list[SurveyRow]) -> list[str]:
    """Sentences about what was read though it is hidden."""
    said = [f"The sheet “{sheet.name}” is hidden; it was read."] if sheet.hidden else []
    hidden = set(sheet.hidden_rows)
    read = [str(r.row) for r in rows if r.sheet == sheet.name and r.row in hidden]
    if read:
        said.append(f"Sheet “{sheet.name}”: hidden rows were read: {', '.join(read)}.")
    return said


def _no_headings(book: Book, file: str) -> Query:
    """One query for a file in which no row of headings is found."""
    first = next(((s.name, c) for s in book.sheets for c in s.cells), None)
    needed = ", ".join(c.heading for c in _NEEDED)
    if first is None:
        return Query(file, "", "", "NO_HEADINGS", "The file holds no cells.", f"Fill in a row of headings: {needed}.", False)
    sheet, cell = first
    message = f"No row of headings was found; the first cell says “{_line(str(cell.value))[:60]}”."
    near = _nearest_headings(book)
    if near:
        message += f" {near}"
    put_right = f"Put a row of headings over the posts: {needed}."
    return Query(file, sheet, cell.address, "NO_HEADINGS", message, put_right, False)


def _nearest_headings(book: Book) -> str:
    """The first few texts that look like misspelt headings, with what they may be."""
    headings = tuple(c.heading for c in SURVEY.columns)
    texts = [_line(str(c.value)) for s in book.sheets for c in s.cells[:60] if c.kind == "text"]
    pairs = [(t, near[0]) for t in dict.fromkeys(texts) if len(t) < 40 and (near := nearest(t, headings, 1))]
    pairs = [(t, n) for t, n in pairs if t.casefold() != n.casefold()][:3]
    return "Perhaps " + ", ".join(f"“{t}” means “{n}”" for t, n in pairs) + "." if pairs else ""
