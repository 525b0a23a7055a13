"""What is asked about headings: two that mean one column, one that is not understood, none at all."""

from __future__ import annotations

import re

from pipeline.intake.layout.grid import Row, line
from pipeline.intake.layout.tables import Head, Table
from pipeline.intake.query import Query
from pipeline.intake.survey.headings import WEAK, claim
from pipeline.intake.survey.spellings import nearest
from pipeline.reading.book import Book
from schemas.survey import SURVEY

_NEEDED = tuple(c for c in SURVEY.columns if c.needed)


def two_headings(table: Table, file: str) -> list[Query]:
    """Headings that claim a column which another heading has claimed already."""
    found = []
    for name, heads in table.heads.items():
        by_label: dict[str, list[Head]] = {}
        for head in heads:
            by_label.setdefault(head.label, []).append(head)
        for first, *others in by_label.values():
            found += [_second(table, file, name, first, second) for second in others]
    return found


def _second(table: Table, file: str, name: str, first: Head, second: Head) -> Query:
    message = (
        f"The headings “{line(first.text)}” ({first.address}) and “{line(second.text)}” both mean "
        f"“{SURVEY.column(name).heading}”."
    )
    put_right = f"Keep one of them as “{SURVEY.column(name).titled}” and give the other a name of its own."
    return Query(file, table.sheet, second.address, "CONFLICT", message, put_right, False, name=name)


def unknown_headings(table: Table, file: str) -> list[Query]:
    """Headings that would be known but for a remark in brackets, where nothing else claims the column.

    Left unsaid, the column's default would stand for what its cells say.
    """
    found = []
    for n, heading in table.extra.items():
        bare = re.sub(r"\s*[\[(].*", "", heading, flags=re.DOTALL)
        known = claim(bare) if bare and bare != heading else None
        if known and known.strength > WEAK and known.name not in table.heads:
            titled = SURVEY.column(known.name).titled
            message = f"The heading “{line(heading)}” is not understood, so its column is not read: does it mean “{titled}”?"
            at = table.grid.at(table.row, n)
            found.append(Query(file, table.sheet, at, "UNREADABLE", message, titled, False, name=known.name))
    return found


def after_total(table: Table, file: str, number: int, cells: Row) -> Query:
    """A row that looks like a post but stands after a total, where the survey has ended."""
    heads = table.heads.get("post_code")
    column = heads[0].column if heads else min(cells)
    message = f"{table.grid.label(number).capitalize()} looks like a post but stands after a total: it is not read."
    put_right = "Move the row above the total if it is a post."
    return Query(file, table.sheet, table.grid.at(number, column), "CONFLICT", message, put_right, False, name="post_code")


def no_headings(book: Book, file: str) -> Query:
    """One query for a file in which no row of headings is found."""
    first = next(((s.name, c) for s in book.sheets for c in s.cells), None)
    needed = ", ".join(c.heading for c in _NEEDED)
    if first is None:
        return Query(file, "", "", "NO_HEADINGS", "The file holds no cells.", f"Fill in a row of headings: {needed}.", False)
    sheet, cell = first
    message = f"No row of headings was found; the first cell says “{line(str(cell.value))[:60]}”."
    near = _nearest_headings(book)
    if near:
        message += f" {near}"
    put_right = f"Put a row of headings over the posts: {needed}."
    return Query(file, sheet, cell.address, "NO_HEADINGS", message, put_right, False)


def _nearest_headings(book: Book) -> str:
    """The first few texts that look like misspelt headings, with what they may be."""
    headings = tuple(c.heading for c in SURVEY.columns)
    texts = [line(str(c.value)) for s in book.sheets for c in s.cells[:60] if c.kind == "text"]
    pairs = [(t, near[0]) for t in dict.fromkeys(texts) if len(t) < 40 and (near := nearest(t, headings, 1))]
    pairs = [(t, n) for t, n in pairs if t.casefold() != n.casefold()][:3]
    return "Perhaps " + ", ".join(f"“{t}” means “{n}”" for t, n in pairs) + "." if pairs else ""
