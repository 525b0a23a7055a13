"""Layout in, records out: every post of a file, with the cell of each of its values, and what must be asked."""

from __future__ import annotations

from dataclasses import dataclass, field, replace

from pipeline.intake.layout.answered import with_what_differs
from pipeline.intake.layout.answers import with_answers
from pipeline.intake.layout.apart import apart
from pipeline.intake.layout.bare_totals import bare_totals, summed
from pipeline.intake.layout.carried import Carried, is_within
from pipeline.intake.layout.counted_sites import with_counted_sites
from pipeline.intake.layout.grid import Row, line, upright
from pipeline.intake.layout.groups import groups_of
from pipeline.intake.layout.headings_asked import (
    AskedHeading,
    after_total,
    heading_queries,
    no_headings,
    two_headings,
    unknown_headings,
)
from pipeline.intake.layout.in_columns import Band, bands_of
from pipeline.intake.layout.legend import legend_of
from pipeline.intake.layout.named_posts import with_named_posts
from pipeline.intake.layout.place_names import names_a_court
from pipeline.intake.layout.reading_notes import RowCounts, column_notes, hidden, row_notes
from pipeline.intake.layout.record import Heading, Record, Stated
from pipeline.intake.layout.row_kinds import (
    Columns,
    Kind,
    closes_a_letter,
    is_an_address,
    kind_of,
    looks_like_post,
    what_a_lone_text_is,
)
from pipeline.intake.layout.row_records import names_a_site, opens_block, records_of, states_another_site
from pipeline.intake.layout.stated_shapes import shapes_of, with_shape
from pipeline.intake.layout.stated_units import units_of, with_units
from pipeline.intake.layout.stated_warnings import warnings_of, with_warnings
from pipeline.intake.layout.tables import Table, find_tables
from pipeline.intake.layout.tabs import with_tabs
from pipeline.intake.layout.titles import labels_in, named_in
from pipeline.intake.layout.type_tables import with_types
from pipeline.intake.query import Query
from pipeline.reading.book import Book, Cell, Sheet
from schemas.survey import NOTHING_IS_READ


@dataclass
class _Found:
    """What a file's sheets come to, one after the other."""

    records: list[Record] = field(default_factory=list)
    queries: list[Query] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)
    asked: list[AskedHeading] = field(default_factory=list)


def find_records(book: Book, file: str) -> tuple[list[Record], list[Query], list[str]]:
    """Every record of `book` in order, the queries of the layout itself, and sentences about how it was read.

    `file` is the name to show. Where no row of headings is found there is one query, NO_HEADINGS, and no record.
    """
    book, answers = with_answers(book)
    found = _Found(notes=list(book.notes))
    headings: dict[str, frozenset[str]] = {}
    for sheet in book.sheets:
        if parts := [bands for part in apart(sheet) if (bands := _bands(part))]:
            headings[sheet.name] = frozenset(n for bands in parts for b in bands for t in b.tables for n in t.heads)
            first = len(found.records)
            for bands in parts:
                _read_sheet(bands, file, found)
            turned = any(t.grid.turned for bands in parts for b in bands for t in b.tables)
            found.records[first:] = _with_lines(sheet, found.records[first:], turned)
            found.notes += hidden(sheet, found.records)
    if not headings:
        return [], [no_headings(book, file)], found.notes
    left_out = [s for s in book.sheets if s.cells and s.name not in headings]
    on_cover = [units for s in left_out if (units := units_of(upright(s).rows))]
    if left_out:
        listed = ", ".join(f"“{s.name}”" for s in left_out)
        found.notes.append(f"Not read, since no row of headings stands in them: {listed}.")
    under = [with_units(r, on_cover[0]) for r in found.records] if len(on_cover) == 1 else found.records
    records, queries = with_what_differs(with_tabs(under, headings), answers, file)
    homeless = {r.sheet for r in records if not names_a_site(r.values)}
    asked = [a for a in found.asked if a.names != ("site_name",) or a.sheet in homeless]
    return with_counted_sites(with_named_posts(records)), [*found.queries, *heading_queries(asked, file), *queries], found.notes


def _with_lines(sheet: Sheet, records: list[Record], turned: bool) -> list[Record]:
    """The records of a sheet with what its lines outside the tables state for them."""
    rows = upright(sheet).rows
    legend, units, shapes = legend_of(sheet), units_of(rows), shapes_of(rows)
    stated = [with_shape(with_units(replace(r, legend=legend), units), shapes, turned) for r in records]
    return stated if turned else with_warnings(stated, warnings_of(rows, stated))


def _bands(sheet: Sheet) -> list[Band]:
    """The tables of a sheet with what stands above them: upright; where there are none, with posts in columns."""
    if any(c.kind == "text" and str(c.value).startswith(NOTHING_IS_READ) for c in sheet.cells[:20]):
        return []
    grid = with_types(upright(sheet))
    if tables := find_tables(grid):
        return [Band(tuple(r for r in grid.rows if r[0] < tables[0].row), tuple(tables))]
    return bands_of(sheet)


def _read_sheet(bands: list[Band], file: str, found: _Found) -> None:
    """All tables of one sheet; a title holds until the next one."""
    carried = Carried()
    for band in bands:
        for (number, cells), below in zip(band.above, [*band.above[1:], (0, {})], strict=False):
            pairs = labels_in(cells, below[1] if below[0] == number + 1 else None)
            named = any(p.claim.name == "site_name" for p in pairs)
            if carried.title.take(pairs if named else [*pairs, *named_in(cells)]):
                carried.place = ""
            lone = next(iter(cells.values()))
            if len(cells) == 1 and lone.kind == "text" and what_a_lone_text_is(line(str(lone.value))) == "place":
                _in_a_place(carried, lone)
        if first := _named_like_the_next(band):
            carried.begin(Stated(first, Heading(line(str(first.value)), "", first.address), first.address, "section_row"))
        for table in band.tables:
            found.queries += two_headings(table, file)
            counts = _read_table(table, file, carried, found)
            found.notes += row_notes(table, counts) + column_notes(table, counts)


def _named_like_the_next(band: Band) -> Cell | None:
    """The lone text over the first table of a band without a title, where one over the next table names that one's ground."""
    first = band.tables[0]
    if len(band.tables) == 1 or not band.above or not first.rows or {"site_code", "site_name"} & first.heads.keys():
        return None
    over = [band.above[-1][1], first.rows[-1][1]]
    if any(labels_in(cells) for _, cells in band.above) or labels_in(over[1]):  # `School: Oak Park` names it
        return None
    lone = [next(iter(cells.values())) for cells in over if len(cells) == 1]
    named = [c for c in lone if c.kind == "text" and what_a_lone_text_is(line(str(c.value))) == "section"]
    if len(named) < len(over):
        return None
    return replace(named[0], value=str(named[0].value).rstrip(" :"))


def _read_table(table: Table, file: str, carried: Carried, found: _Found) -> RowCounts:
    """The rows of one table, each by its kind."""
    carried.heading()
    columns, groups, counts, totals = Columns(table), groups_of(table), RowCounts(), bare_totals(table)
    asked = unknown_headings(table)
    found.asked += asked
    waits = {name: a.cell for a in asked for name in a.names}
    carried.one_site = columns.one_site
    each, signed = summed(table), False
    end = max((number for number, cells in table.rows if len(cells) > 1), default=0)
    for number, cells in table.rows:
        kind = "partial" if number in totals else kind_of(columns, cells)
        signed = number > end and (signed or closes_a_letter(cells))
        kind = "remark" if signed and kind in ("post", "section", "doubtful", "block") else kind
        kind = "doubtful" if kind == "remark" and not carried.fresh and is_an_address(cells) else kind
        if counts.total and not _begins_again(table, kind, cells, carried):
            if looks_like_post(table, cells):
                found.queries.append(after_total(table, file, number, cells))
            continue
        counts.count(kind, number, cells)
        if kind == "post":
            carried.title.close()
            carried.fresh = False
            found.records += [replace(r, asked=waits, summed=each) for r in records_of(table, groups, number, cells, carried)]
            counts.posts += 1
        else:
            _pass(table, kind, number, cells, carried)
    return counts


def _begins_again(table: Table, kind: Kind, cells: Row, carried: Carried) -> bool:
    """Whether a row after a total names another ground, so that posts may follow."""
    return kind in ("section", "title") or (kind in ("post", "block") and states_another_site(table, cells, carried))


def _in_a_place(carried: Carried, cell: Cell) -> None:
    """A row of its own that names a court: a ground of its own by its name where no ground stands above, else a part of one."""
    text = line(str(cell.value))
    above = line(str(carried.section.cell.value)) if carried.section else ""
    of_a_ground = names_a_site(carried.title.stated()) or (above and not names_a_court(above))
    if names_a_court(text) and not of_a_ground:
        carried.begin(Stated(cell, Heading(text, "", cell.address), cell.address, "section_row"))
    else:
        carried.place = text
        carried.cut()


def _pass(table: Table, kind: Kind, number: int, cells: Row, carried: Carried) -> None:
    """What a row that is no post changes for the rows below it."""
    cell = next(iter(cells.values()))
    cell = replace(cell, value=str(cell.value).rstrip(" :")) if cell.kind == "text" else cell
    stated = Stated(cell, Heading(line(str(cell.value)), "", cell.address), cell.address, "section_row")
    if kind == "title":
        within = is_within(carried, labels_in(cells))
        if within and not carried.fresh:
            carried.begin(None, stated)
        elif not within and carried.title.take(labels_in(cells)):
            carried.begin(None)
    elif kind == "section":
        carried.begin(stated)
    elif kind == "doubtful":
        carried.begin(None, stated)
    elif kind == "place":
        _in_a_place(carried, cell)
    elif kind in ("total", "partial"):
        carried.cut()
    elif kind == "block":
        opens_block(table, number, cells, carried)
