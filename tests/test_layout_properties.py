"""The same posts in any layout; whatever is moved, split or left blank gives the same posts or a query, never another number."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from survey_books import book, sheet

from pipeline.intake.layout.find import find_records
from pipeline.intake.layout.record import Record
from pipeline.reading.book import Book, Sheet


@dataclass(frozen=True)
class Post:
    site: str
    code: str
    shape: str
    size: float
    height: float


SITES = ("Elm Street School", "OAK PARK", "Fir Lane", "P.S. 118", "Riverside Field")
CODES = ("N", "S", "E", "W")
HEADS = ["Post", "Post shape", "Post size [in]", "Height above ground [ft]"]
MARKS = ('"', "do.", "ditto", "〃", "''")


@st.composite
def truths(draw: Any) -> list[Post]:
    sites = draw(st.lists(st.sampled_from(SITES), min_size=2, max_size=3, unique=True))
    shape, size, height = (
        st.sampled_from(("round", "square")),
        st.sampled_from((2.375, 3.5, 4.0)),
        st.sampled_from((8.0, 8.5, 9.75)),
    )
    return [
        Post(site, code, draw(shape), draw(size), draw(height))
        for site in sites
        for code in CODES[: draw(st.integers(1, 4))]
    ]  # fmt: skip


def by_site(truth: list[Post]) -> dict[str, list[Post]]:
    sites: dict[str, list[Post]] = {}
    for p in truth:
        sites.setdefault(p.site, []).append(p)
    return sites


def cells(p: Post) -> list[Any]:
    return [p.code, p.shape, p.size, p.height]


def plain(truth: list[Post], mark: str) -> list[Sheet]:
    return [sheet([["Site name", *HEADS], *([p.site, *cells(p)] for p in truth)])]


def blocks(truth: list[Post], mark: str) -> list[Sheet]:
    rows = [[p.site if p is posts[0] else None, *cells(p)] for posts in by_site(truth).values() for p in posts]
    return [sheet([["Site name", *HEADS], *rows])]


def opened(truth: list[Post], mark: str) -> list[Sheet]:
    rows: list[Any] = [["Site name", *HEADS]]
    for site, posts in by_site(truth).items():
        rows += [[site], *([None, *cells(p)] for p in posts), ["Total", None, None, None, len(posts)], None]
    return [sheet(rows)]


def dittos(truth: list[Post], mark: str) -> list[Sheet]:
    rows: list[Any] = [["Site name", *HEADS]]
    before: list[Any] = []
    for p in truth:
        row = [p.site, *cells(p)]
        rows.append([mark if n != 1 and before and v == before[n] else v for n, v in enumerate(row)])
        before = row
    return [sheet(rows)]


def titles(truth: list[Post], mark: str) -> list[Sheet]:
    rows: list[Any] = []
    for site, posts in by_site(truth).items():
        rows += [[f"School: {site}"], ["Surveyed on", "2026-05-03"], HEADS, *(cells(p) for p in posts), None]
    return [sheet(rows)]


def sections(truth: list[Post], mark: str) -> list[Sheet]:
    rows: list[Any] = [["Posts of the district"], HEADS]
    for site, posts in by_site(truth).items():
        rows += [[site], *(cells(p) for p in posts)]
    return [sheet(rows)]


def tabs(truth: list[Post], mark: str) -> list[Sheet]:
    return [sheet([HEADS, *(cells(p) for p in posts)], site) for site, posts in by_site(truth).items()]


def in_columns(truth: list[Post], mark: str) -> list[Sheet]:
    units = [None, None, "in", "ft"]
    heads = ["Post", "Post shape", "Post size", "Height above ground"]
    return [
        sheet([[h, u, *(cells(p)[n] for p in posts)] for n, (h, u) in enumerate(zip(heads, units, strict=True))], site)
        for site, posts in by_site(truth).items()
    ]


def stacked_columns(truth: list[Post], mark: str) -> list[Sheet]:
    rows: list[Any] = []
    for site, posts in by_site(truth).items():
        rows += [["School", site], *([h, *(cells(p)[n] for p in posts)] for n, h in enumerate(HEADS)), None]
    return [sheet(rows)]


def beside(truth: list[Post], mark: str) -> list[Sheet]:
    heads = ["Site name", *(f"{c} {h}" for c in CODES for h in ("pole shape", "pole size [in]", "pole height [ft]"))]
    rows = [[site, *(v for p in posts for v in cells(p)[1:])] for site, posts in by_site(truth).items()]
    return [sheet([heads, *rows])]


def grouped(truth: list[Post], mark: str) -> list[Sheet]:
    upper = ["Site name", *(v for c in CODES for v in (f"{c} post", None, None)), None]
    lower = [None, *(["shape", "size [in]", "height [ft]"] * len(CODES)), "Notes"]
    rows = [[site, *(v for p in posts for v in cells(p)[1:])] for site, posts in by_site(truth).items()]
    return [sheet([upper, lower, *rows])]


def typed(truth: list[Post], mark: str) -> list[Sheet]:
    kinds = list(dict.fromkeys(tuple(cells(p)[1:]) for p in truth))
    rows = [
        ["Post type", *HEADS[1:]],
        *([f"T{n}", *kind] for n, kind in enumerate(kinds)),
        None,
        ["Site name", "Post", "Post type"],
    ]
    return [sheet([*rows, *([p.site, p.code, f"T{kinds.index(tuple(cells(p)[1:]))}"] for p in truth)])]


LAYOUTS: tuple[Callable[[list[Post], str], list[Sheet]], ...] = (
    plain, blocks, opened, dittos, titles, sections, tabs, in_columns, stacked_columns, beside, grouped, typed,
)  # fmt: skip


def read(made: Book) -> tuple[list[Record], list[Any]]:
    records, queries, _ = find_records(made, "a.xlsx")
    return records, queries


def post_of(record: Record) -> Post | None:
    """The post of a record; None where anything is wrong with it or missing."""
    names = ("site_name", "post_code", "post_shape", "post_size", "post_height")
    if record.wrong or not all(n in record.values for n in names):
        return None
    site, code, shape, size, height = (record.values[n].cell.value for n in names)
    return Post(str(site), str(code).removesuffix(" post"), str(shape), float(str(size)), float(str(height)))


@pytest.mark.parametrize("layout", LAYOUTS, ids=lambda f: f.__name__)
@settings(max_examples=20, deadline=None)
@given(truth=truths(), mark=st.sampled_from(MARKS))
def test_the_same_posts_in_any_layout(layout: Any, truth: list[Post], mark: str) -> None:
    records, queries = read(book(*layout(truth, mark)))
    assert queries == []
    assert Counter(post_of(r) for r in records) == Counter(truth)
    assert len({(r.sheet, r.label) for r in records}) == len(records)
    there = {(s.name, c.address) for s in layout(truth, mark) for c in s.cells}
    assert all((r.sheet, s.cell.address) in there for r in records for n, s in r.values.items() if s.how not in ("sheet_name",))


def without_a_cell(made: list[Sheet], n: int) -> Book:
    """The book with one cell blank that names no site: whose posts they are is what the sender then says no more."""
    named = (*SITES, "School")
    places = [
        (s, c) for s, each in enumerate(made) for c, cell in enumerate(each.cells) if not any(w in str(cell.value) for w in named)
    ]
    s, c = places[n % len(places)]
    kept = made[s].cells[:c] + made[s].cells[c + 1 :]
    return Book("xlsx", tuple(Sheet(x.name, kept if k == s else x.cells) for k, x in enumerate(made)))


@pytest.mark.parametrize("layout", LAYOUTS, ids=lambda f: f.__name__)
@settings(max_examples=40, deadline=None)
@given(truth=truths(), mark=st.sampled_from(MARKS), n=st.integers(0, 400))
def test_a_cell_left_blank_gives_the_same_posts_or_a_query_never_another_number(
    layout: Any, truth: list[Post], mark: str, n: int
) -> None:
    records, queries = read(without_a_cell(layout(truth, mark), n))
    numbers = {(p.shape, p.size, p.height) for p in truth}
    for record in records:
        found = post_of(record)
        assert found is None or (found.shape, found.size, found.height) in numbers
        if found is not None and found.code in CODES and found.site in SITES:
            assert found in truth
    assert records or queries


def with_blank_row(made: list[Sheet], n: int, upright: bool) -> Book:
    """The book with a blank row, or a blank column where posts stand in columns, put in below the headings."""
    from dataclasses import replace

    def moved(each: Sheet) -> Sheet:
        cells = (
            replace(c, row=c.row + (c.row > n)) if upright else replace(c, column=c.column + (c.column > n)) for c in each.cells
        )
        return Sheet(each.name, tuple(sorted(cells, key=lambda c: (c.row, c.column))))

    return Book("xlsx", tuple(map(moved, made)))


@pytest.mark.parametrize("layout", [f for f in LAYOUTS if f is not grouped], ids=lambda f: f.__name__)
@settings(max_examples=20, deadline=None)
@given(truth=truths(), mark=st.sampled_from(MARKS), n=st.integers(2, 14))
def test_a_blank_row_put_in_changes_nothing(layout: Any, truth: list[Post], mark: str, n: int) -> None:
    upright = layout not in (in_columns, stacked_columns)
    records, _ = read(with_blank_row(layout(truth, mark), n, upright))
    assert Counter(post_of(r) for r in records) == Counter(truth)


@settings(max_examples=60, deadline=None)
@given(truth=truths(), column=st.integers(2, 5), row=st.integers(2, 12), mark=st.sampled_from(MARKS))
def test_a_mark_where_none_belongs_takes_the_cell_above_or_is_asked(truth: list[Post], column: int, row: int, mark: str) -> None:
    """A mark says the same as above whatever was meant: the value is that cell's, and it is said."""
    (made,) = plain(truth, mark)
    cells = tuple(type(c)(c.row, c.column, "text", mark) if (c.row, c.column) == (row, column) else c for c in made.cells)
    records, _ = read(Book("xlsx", (Sheet(made.name, cells),)))
    for record in records:
        for name, stated in record.values.items():
            own = stated.at == stated.cell.address
            assert own == (stated.how == "")
            if stated.how == "same_as_above":
                assert stated.cell.column == column
                assert stated.cell.row == row - 1
            assert name != "post_code" or own
