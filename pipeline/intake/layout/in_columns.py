"""Posts in columns: headings down the first column, or the first two, and a post in each further one."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from pipeline.intake.layout.grid import Grid, Row, line, turned, upright
from pipeline.intake.layout.grounds import ground_in
from pipeline.intake.layout.tables import Head, Table, find_tables
from pipeline.intake.layout.titles import IN_TITLES
from pipeline.intake.layout.under_headings import UNIT_WORDS
from pipeline.intake.survey.heading_words import posts_in_the_plural
from pipeline.intake.survey.headings import claim, fold, says_where
from pipeline.reading.book import Cell, Sheet


@dataclass(frozen=True)
class Band:
    """Rows of a sheet in which posts stand in columns: what stands above them, and their tables."""

    above: tuple[tuple[int, Row], ...]
    tables: tuple[Table, ...]


def bands_of(sheet: Sheet) -> list[Band]:
    """Bands of posts in columns, from the top; none where no column of headings is found."""
    grid = turned(sheet)
    whole = _tables(grid)
    if not whole:
        return []
    rows = upright(sheet).rows
    return [b for lo, hi in _cuts(whole[0], rows) if (b := _band(grid, rows, lo, hi))]


def _measured(table: Table, rows: Mapping[int, Row]) -> bool:
    """Whether a figure stands beside a heading of size or height: else it is a list of what to look at, and no survey."""
    heads = [h for name in ("post_size", "post_height") for h in table.heads.get(name, ())]
    beside = [c for h in heads for n, c in rows[h.column].items() if n > table.row]
    return any(c.kind != "text" or any(letter.isdigit() for letter in str(c.value)) for c in beside)


def _cuts(table: Table, rows: Sequence[tuple[int, Row]]) -> Iterator[tuple[int, int]]:
    """First row of each band and of what follows it: a band begins before the heading that stands again."""
    names = {h.column: name for name, heads in table.heads.items() for h in heads}
    filled = {n for n, _ in rows}
    begins, seen = [1], set[str]()
    for n in sorted(names):
        if names[n] in seen:
            begins.append(_begin(n, begins[-1], names, filled))
            seen = {name for k, name in names.items() if begins[-1] <= k <= n}
        seen.add(names[n])
    yield from zip(begins, [*begins[1:], 1 << 21], strict=True)


def _begin(again: int, least: int, names: Mapping[int, str], filled: set[int]) -> int:
    """Where the band begins whose heading in row `again` stands in the band from `least` on already.

    At the last blank row before it, and before titles in front of that; without a blank row, after the last heading about a
    post.
    """
    about_posts = [k for k, name in names.items() if name not in IN_TITLES and k < again]
    top = again
    while top - 1 in filled and top - 1 > least:
        top -= 1
    if top - 1 <= least:
        return max(about_posts, default=again - 1) + 1
    last = max((k for k in about_posts if k < top), default=least)
    return next((n for n in range(last + 1, top) if n not in filled), top - 1) + 1


def _band(grid: Grid, rows: Sequence[tuple[int, Row]], lo: int, hi: int) -> Band | None:
    """The tables of one band, without the titles above them."""
    found = _tables(_between(grid, lo, hi))
    if not found or not _measured(found[0], dict(rows)):
        return None
    heads = {h.column: name for name, hs in found[0].heads.items() for h in hs}
    cells = {number: row for number, row in rows if lo <= number < hi}
    known = {n for n, row in cells.items() if len(row) > 2 and _says_something(row.get(found[0].row))}
    first = min({n for n, name in heads.items() if name not in IN_TITLES or len(cells[n]) > 2} | known)
    grounds = _grounds_above(found[0], cells, first)
    corner = grounds or (_names_above(found[0], cells, first) if "post_code" not in found[0].heads else 0)
    over = _grounds_above(found[0], cells, corner, True) if corner and not grounds else 0  # grounds over posts with names
    start = over or corner or first
    part = replace(_between(grid, start, hi), part=found[0].grid.part)
    titled = any(heads.get(n) in ("site_code", "site_name") for n in cells if n < start)
    sized = {"post_size", "post_height"} <= found[0].heads.keys()
    tables = find_tables(part, bool(corner), titled) or (find_tables(part, True, titled) if sized else [])
    if corner:
        tables = [_with_names(t, corner, "site_name" if grounds else "post_code") for t in tables]
    if over:
        tables = [_with_names(t, over, "site_name") for t in tables]
    return Band(tuple((n, row) for n, row in cells.items() if n < start), tuple(tables)) if tables else None


def _says_something(heading: Cell | None) -> bool:
    """Whether a cell is a heading that is known, if only as one that says where."""
    text = str(heading.value) if heading is not None and heading.kind == "text" else ""
    return bool(text) and (claim(text) is not None or says_where(text))


def _tables(grid: Grid) -> list[Table]:
    found = find_tables(grid) or find_tables(grid, named=True)
    return [] if found and all(_is_prose(t) for t in found) else found


_MEASURE = 40  # characters of a size or a height, at most


def _is_prose(table: Table) -> bool:
    """Whether sentences stand where a post's size and height would: a sheet that explains them."""
    sized = [h.column for name in ("post_size", "post_height") for h in table.heads.get(name, ())]
    cells = [row[n] for _, row in table.rows for n in sized if n in row]
    return bool(cells) and all(c.kind == "text" and len(str(c.value)) > _MEASURE for c in cells)


def _between(grid: Grid, lo: int, hi: int) -> Grid:
    """The part of a turned grid that stands in some rows of the sheet."""
    rows = ((number, {n: c for n, c in cells.items() if lo <= n < hi}) for number, cells in grid.rows)
    part = f", from row {lo}" if lo > min(n for _, cells in grid.rows for n in cells) else ""
    return replace(grid, rows=tuple((number, cells) for number, cells in rows if cells), part=part)


def _names_above(table: Table, cells: Mapping[int, Row], first: int) -> int:
    """The row of the posts' names, which stands over the columns and has no heading of its own; 0 where there is none."""
    above = cells.get(first - 1, {})
    over = {n: c for n, c in above.items() if n > table.row and not (c.kind == "text" and fold(str(c.value)) in UNIT_WORDS)}
    names = {fold(str(c.value)) for c in over.values()}
    corner = above.get(table.row)
    apart = corner is None or (corner.kind == "text" and len(names) == len(over) > 1 and claim(str(corner.value)) is None)
    return first - 1 if over and apart and (len(above) > 1) else 0


def _grounds_above(table: Table, cells: Mapping[int, Row], first: int, posts_named: bool = False) -> int:
    """The row over the columns that names the ground of each and has no heading, where no heading does; 0 where there is none."""
    above = cells.get(first - 1, {})
    over = [c for n, c in above.items() if n > table.row]
    named = [c.kind == "text" and ground_in(str(c.value)) == line(str(c.value)) for c in over]
    in_words = all(c.kind == "text" and re.search(r"[^\W\d_]{3}", str(c.value)) for c in over)
    named = (
        named if not (posts_named or "post_code" in table.heads) or not in_words else [any(named)]
    )  # the posts have names of their own
    unheaded = (table.row not in above or (posts_named and _of_all(above[table.row]))) and not {
        "site_code",
        "site_name",
    } & table.heads.keys()
    return first - 1 if unheaded and named and all(named) else 0


def _of_all(corner: Cell) -> bool:
    """Whether the corner beside the grounds says what all of it is, and heads none of its rows: `Outdoor posts`."""
    text = str(corner.value) if corner.kind == "text" else ""
    return bool(text) and (claim(text) is None or posts_in_the_plural(text))


def _with_names(table: Table, corner: int, name: str) -> Table:
    """The table with the row over its columns as the posts' names, or their grounds'."""
    head = Head(table.row, corner, table.grid.at(table.row, corner), "", "")
    extra = {n: text for n, text in table.extra.items() if n != corner}
    return replace(table, heads={**table.heads, name: (head,)}, extra=extra)
