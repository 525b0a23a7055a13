"""What is asked about headings: two that mean one column, one that is not understood, none at all."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from pipeline.intake.layout.courts import is_court
from pipeline.intake.layout.grid import Row, line
from pipeline.intake.layout.grounds import ground_in
from pipeline.intake.layout.list_words import ASKED
from pipeline.intake.layout.round_or_square import round_or_square
from pipeline.intake.layout.several_meanings import may_count, may_name_posts
from pipeline.intake.layout.tables import Head, Table, feet_and_inches
from pipeline.intake.query import Query
from pipeline.intake.survey.folding import fold
from pipeline.intake.survey.headings import says_where
from pipeline.intake.survey.list_words import question_of
from pipeline.intake.survey.near_headings import may_mean
from pipeline.intake.survey.spellings import nearest
from pipeline.reading.book import Book
from schemas.survey import SURVEY

_NEEDED = tuple(c for c in SURVEY.columns if c.needed)
_NUMBER_OR_NAMES = ("quantity", "post_code")  # what `Posts` alone can mean


@dataclass(frozen=True, slots=True)
class AskedHeading:
    """A heading that is asked about: where it stands, its words, and the columns that it may mean."""

    sheet: str
    cell: str
    text: str
    names: tuple[str, ...]


def two_headings(table: Table, file: str) -> list[Query]:
    """Headings that claim a column which another heading has claimed already."""
    found = []
    for name, heads in table.heads.items():
        by_label: dict[str, list[Head]] = {}
        for head in heads:
            by_label.setdefault(head.label, []).append(head)
        for first, *others in by_label.values():
            if feet_and_inches([first, *others]) or _of_round_and_square(table, name, [first, *others]):
                continue
            asked = any(question_of(h.text, name) for h in (first, *others))  # questions about one thing
            found += [_second(table, file, name, first, second) for second in others if not asked]
    return found


def _of_round_and_square(table: Table, name: str, heads: Sequence[Head]) -> bool:
    return name == "post_size" and round_or_square({h.column: h.text for h in heads}, table.rows)


def _second(table: Table, file: str, name: str, first: Head, second: Head) -> Query:
    message = (
        f"The headings “{line(first.text)}” ({first.address}) and “{line(second.text)}” both mean "
        f"“{SURVEY.column(name).heading}”."
    )
    put_right = f"Keep one of them as “{SURVEY.column(name).titled}” and give the other a name of its own."
    return Query(file, table.sheet, second.address, "CONFLICT", message, put_right, False, name=name)


def unknown_headings(table: Table) -> list[AskedHeading]:
    """Headings that are not known but may mean a column which no other heading claims.

    Left unsaid, the column's default would stand for what its cells say. Source: design section 11, rule 8.
    """
    found = []
    for n, heading in table.extra.items():
        cells = [str(cells[n].value) for _, cells in table.rows if n in cells and cells[n].kind == "text"]
        if not heading or not any(n in cells for _, cells in table.rows):
            continue
        may = _NUMBER_OR_NAMES if (heading, "") in table.passed_over else may_mean(heading, cells)
        may = ("quantity",) if not may and may_count(heading, n, table.rows) else may
        may = ("post_code", "quantity") if not may and may_name_posts(n, table.rows) and "quantity" not in table.heads else may
        may = ("site_name",) if not may and _may_name_a_site(heading, cells, table) else may
        names = tuple(name for name in may if name not in table.heads)
        if names:
            found.append(AskedHeading(table.sheet, table.heading_at(n), line(heading), names))
    return found


def _may_name_a_site(heading: str, cells: Sequence[str], table: Table) -> bool:
    """Whether a column of courts or places has words in a table that names no site."""
    if {"site_code", "site_name"} & table.heads.keys():
        return False
    where = is_court(heading) or says_where(heading)
    return (where and any(re.search(r"[^\W\d_]{3}", c) for c in cells)) or (bool(cells) and all(map(ground_in, cells)))


def heading_queries(asked: Iterable[AskedHeading], file: str) -> list[Query]:
    """One question for each heading of a file that is not known, at the first place where it stands."""
    first: dict[tuple[str, tuple[str, ...]], AskedHeading] = {}
    for a in asked:
        first.setdefault((fold(a.text), a.names), a)
    return [_asked(a, file) for a in first.values()]


def _asked(a: AskedHeading, file: str) -> Query:
    means = [SURVEY.column(name).heading for name in a.names]
    listed = " or the ".join(means)
    letters = a.cell.rstrip("0123456789")
    message = f"{ASKED}{letters}, “{a.text}”, the {listed}? It is not read until that is answered."
    return Query(file, a.sheet, a.cell, "HEADING", message, "; ".join(means), False, name=a.names[0])


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
